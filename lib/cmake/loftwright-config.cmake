# What the static library is linked with.
include(CMakeFindDependencyMacro)
find_dependency(NLopt)
find_dependency(Threads)
find_dependency(fmt)
include(${CMAKE_CURRENT_LIST_DIR}/loftwright-targets.cmake)
