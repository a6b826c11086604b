# The installed package: find_package(fingerway) gives the target fingerway::fingerway.
include(CMakeFindDependencyMacro)
find_dependency(fmt 9)
find_dependency(pugixml)
find_dependency(yaml-cpp)
include("${CMAKE_CURRENT_LIST_DIR}/fingerway-targets.cmake")
