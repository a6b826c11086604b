# What is installed and where, and the packages made of it (cpack). Two components: `program` is the package fingerway,
# `development` is libfingerway-dev. Included by CMakeLists.txt.
include(CMakePackageConfigHelpers)
set(package_files "${PROJECT_SOURCE_DIR}/tools/package")
set(made "${PROJECT_BINARY_DIR}/installed-files")

# --- the library for others -------------------------------------------------------------------------------------------
set(package_folder "${CMAKE_INSTALL_LIBDIR}/cmake/fingerway")
install(TARGETS fingerway EXPORT fingerway-targets
        ARCHIVE COMPONENT development
        FILE_SET HEADERS COMPONENT development)
install(EXPORT fingerway-targets NAMESPACE fingerway:: DESTINATION "${package_folder}" COMPONENT development)
write_basic_package_version_file(fingerway-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES tools/cmake/fingerway-config.cmake "${PROJECT_BINARY_DIR}/fingerway-config-version.cmake"
        DESTINATION "${package_folder}" COMPONENT development)
# The way back from the .pc file to the prefix, so that an installed tree can be moved.
set(pc_folder "${CMAKE_INSTALL_LIBDIR}/pkgconfig")
string(REGEX REPLACE "[^/]+" ".." prefix_from_pc "${pc_folder}")
configure_file("${package_files}/fingerway.pc.in" "${made}/fingerway.pc" @ONLY)
install(FILES "${made}/fingerway.pc" DESTINATION "${pc_folder}" COMPONENT development)

# --- the program, what it reads, and how it is found ------------------------------------------------------------------
set(data_folder "${CMAKE_INSTALL_DATADIR}/fingerway")
install(DIRECTORY instruments scores DESTINATION "${data_folder}" COMPONENT program)
install(FILES LICENSE DESTINATION "${CMAKE_INSTALL_DOCDIR}" COMPONENT program)
if(EXISTS "${PROJECT_SOURCE_DIR}/src/page/index.html")
  install(DIRECTORY src/page/ DESTINATION "${data_folder}/page" COMPONENT program
          PATTERN node_modules EXCLUDE PATTERN "package*.json" EXCLUDE PATTERN "*.d.ts" EXCLUDE)
endif()
# The engraver and the guide are there once npm has fetched the one and tools/guide/build has built the other.
install(DIRECTORY src/page/node_modules/verovio/dist/ DESTINATION "${data_folder}/engraver" COMPONENT program OPTIONAL
        FILES_MATCHING PATTERN verovio.mjs PATTERN verovio-module.mjs)
install(DIRECTORY build/guide/ DESTINATION "${data_folder}/guide" COMPONENT program OPTIONAL)

if(TARGET fingerway_program)
  install(TARGETS fingerway_program RUNTIME COMPONENT program)
  # Written by the program itself from the definitions of its commands.
  set(references)
  foreach(what_and_file man:fingerway.1 bash:fingerway.bash zsh:_fingerway fish:fingerway.fish)
    string(REGEX REPLACE ":.*" "" what "${what_and_file}")
    string(REGEX REPLACE ".*:" "" file "${what_and_file}")
    add_custom_command(OUTPUT "${made}/${file}" DEPENDS fingerway_program VERBATIM
                       COMMAND "${CMAKE_COMMAND}" -D "PROGRAM=$<TARGET_FILE:fingerway_program>" -D "WHAT=${what}"
                               -D "FILE=${made}/${file}" -P "${PROJECT_SOURCE_DIR}/tools/cmake/reference.cmake")
    list(APPEND references "${made}/${file}")
  endforeach()
  add_custom_command(OUTPUT "${made}/fingerway.1.gz" DEPENDS "${made}/fingerway.1" VERBATIM
                     COMMAND gzip -9nkf "${made}/fingerway.1")
  add_custom_target(fingerway_reference ALL DEPENDS ${references} "${made}/fingerway.1.gz")
  install(FILES "${made}/fingerway.1.gz" DESTINATION "${CMAKE_INSTALL_MANDIR}/man1" COMPONENT program)
  install(FILES "${made}/fingerway.bash" DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions"
          RENAME fingerway COMPONENT program)
  install(FILES "${made}/_fingerway" DESTINATION "${CMAKE_INSTALL_DATADIR}/zsh/vendor-completions" COMPONENT program)
  install(FILES "${made}/fingerway.fish" DESTINATION "${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d"
          COMPONENT program)
endif()
install(FILES "${package_files}/fingerway.desktop" DESTINATION "${CMAKE_INSTALL_DATADIR}/applications" COMPONENT program)
install(FILES "${package_files}/fingerway.svg"
        DESTINATION "${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps" COMPONENT program)
install(FILES "${package_files}/fingerway-mime.xml" DESTINATION "${CMAKE_INSTALL_DATADIR}/mime/packages"
        RENAME fingerway.xml COMPONENT program)

# --- packages: cpack in the build folder of the preset `package` ------------------------------------------------------
set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "Fingerway contributors <contributors@fingerway.invalid>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
file(READ "${package_files}/description" package_description)
string(STRIP "${package_description}" package_description)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "${package_description}")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME fingerway)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION sound)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_RECOMMENDS "xdg-utils")
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION "${package_description}\nThis package holds the library for other programs.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libfingerway-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS "libfmt-dev (>= 9), libpugixml-dev, libyaml-cpp-dev (>= 0.7), libzip-dev, zlib1g-dev")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_RECOMMENDS "fingerway (= ${PROJECT_VERSION}-1)")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "${PROJECT_DESCRIPTION}")

# What Debian wants in every package's folder of documents. The date is that of SOURCE_DATE_EPOCH where it is set.
string(TIMESTAMP package_date "%a, %d %b %Y %H:%M:%S +0000" UTC)
configure_file("${package_files}/changelog.Debian.in" "${made}/changelog.Debian" @ONLY)
file(READ README.md readme)
string(REGEX MATCH "\n## Changes\n.*" changes "${readme}")
file(WRITE "${made}/changelog" "${changes}")
foreach(file changelog changelog.Debian)
  execute_process(COMMAND gzip -9nkf "${made}/${file}" COMMAND_ERROR_IS_FATAL ANY)
endforeach()
foreach(component_and_package program:fingerway development:libfingerway-dev)
  string(REGEX REPLACE ":.*" "" component "${component_and_package}")
  string(REGEX REPLACE ".*:" "" package "${component_and_package}")
  install(FILES "${package_files}/copyright" "${made}/changelog.gz" "${made}/changelog.Debian.gz"
          DESTINATION "${CMAKE_INSTALL_DATADIR}/doc/${package}" COMPONENT ${component})
endforeach()
include(CPack)
