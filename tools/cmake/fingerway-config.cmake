# The installed package: find_package(fingerway) gives the target fingerway::fingerway.
include(CMakeFindDependencyMacro)
find_dependency(fmt 9)
find_dependency(pugixml)
find_dependency(yaml-cpp)
find_dependency(ZLIB)
find_dependency(PkgConfig)
pkg_check_modules(libzip REQUIRED IMPORTED_TARGET libzip)
include("${CMAKE_CURRENT_LIST_DIR}/fingerway-targets.cmake")
