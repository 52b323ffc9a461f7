# The packages the library looks for, where the compiler looks nowhere of itself: those that are headers alone are the system's,
# each through a link of its own, for among all of the system's headers are its C library's; NLopt is compiled here.
set(headers ${PROJECT_BINARY_DIR}/headers)
file(MAKE_DIRECTORY ${headers})

# `package` as find_package knows it, a target that finds `folder` of the system's headers.
function(header_package package target folder)
  cmake_path(GET folder FILENAME name)
  if(NOT IS_DIRECTORY ${folder})
    message(FATAL_ERROR "${folder} is missing: .ci/packages")
  endif()
  file(CREATE_LINK ${folder} ${headers}/${name} SYMBOLIC)
  add_library(${target} INTERFACE IMPORTED GLOBAL)
  target_include_directories(${target} SYSTEM INTERFACE ${headers})
  is_found(${package})
endfunction()

function(is_found package)
  file(WRITE ${CMAKE_FIND_PACKAGE_REDIRECTS_DIR}/${package}Config.cmake "")
  file(WRITE ${CMAKE_FIND_PACKAGE_REDIRECTS_DIR}/${package}ConfigVersion.cmake "set(PACKAGE_VERSION_COMPATIBLE TRUE)\n")
endfunction()

header_package(Boost Boost::headers /usr/include/boost)

# Boost's table of Sobol's sequence is for 3667 dimensions, a fourteenth of the page; the program asks for a few dozen. In
# ${cut_headers} is the same header with the first of them, for who looks there first; who asks for more is refused by Boost.
set(sobol boost/random/detail/sobol_table.hpp)
set(sobol_dimensions 64)
file(READ ${headers}/${sobol} table)
foreach(part sobol_a sobol_minit)
  if(NOT table MATCHES "${part}\\[[^]]*\\] = {([^}]*)}")
    message(FATAL_ERROR "${sobol}: there is no ${part}")
  endif()
  set(all "${CMAKE_MATCH_1}")
  string(REGEX REPLACE "[ \n]" "" numbers "${all}")
  string(REPLACE "," ";" numbers "${numbers}")
  math(EXPR wanted "${sobol_dimensions} - 1")
  if(part STREQUAL "sobol_minit")
    math(EXPR wanted "15 * ${wanted}")
  endif()
  list(SUBLIST numbers 0 ${wanted} numbers)
  string(REPLACE ";" "," numbers "${numbers}")
  string(REPLACE "${all}" "${numbers}" table "${table}")
endforeach()
if(NOT table MATCHES "#define BOOST_RANDOM_SOBOL_MAX_DIMENSION [0-9]+")
  message(FATAL_ERROR "${sobol}: it does not say for how many dimensions it is")
endif()
string(REPLACE "${CMAKE_MATCH_0}" "#define BOOST_RANDOM_SOBOL_MAX_DIMENSION ${sobol_dimensions}" table "${table}")
set(cut_headers ${PROJECT_BINARY_DIR}/cut)
file(CONFIGURE OUTPUT ${cut_headers}/${sobol} CONTENT "${table}" @ONLY)

header_package(Eigen3 Eigen3::Eigen /usr/include/eigen3/Eigen)
header_package(FastFloat FastFloat::fast_float /usr/include/fast_float)
header_package(fmt fmt::fmt /usr/include/fmt)
target_compile_definitions(fmt::fmt INTERFACE FMT_HEADER_ONLY)
header_package(nlohmann_json nlohmann_json::nlohmann_json /usr/include/nlohmann)
header_package(CLI11 CLI11::CLI11 /usr/include/CLI)

# No threads: parallel_for asks for them and is refused.
add_library(Threads::Threads INTERFACE IMPORTED GLOBAL)
is_found(Threads)

# Of NLopt the two algorithms the library asks for.
set(nlopt ${LOFTWRIGHT_NLOPT_SOURCE}/src)
if(NOT EXISTS ${nlopt}/api/nlopt.h)
  message(FATAL_ERROR "LOFTWRIGHT_NLOPT_SOURCE: there is no source of NLopt in '${LOFTWRIGHT_NLOPT_SOURCE}'")
endif()
file(GLOB nlopt_algorithms LIST_DIRECTORIES TRUE ${nlopt}/algs/*)
set(optimize ${nlopt}/api/optimize.c)
add_library(desk_nlopt STATIC ${optimize} ${nlopt}/api/general.c ${nlopt}/api/options.c ${nlopt}/api/deprecated.c ${nlopt}/algs/slsqp/slsqp.c ${nlopt}/algs/cobyla/cobyla.c
                              ${nlopt}/util/mt19937ar.c ${nlopt}/util/rescale.c ${nlopt}/util/stop.c ${nlopt}/util/timer.c)
target_include_directories(desk_nlopt PRIVATE nlopt ${nlopt}/util ${nlopt_algorithms} PUBLIC ${nlopt}/api)
target_compile_options(desk_nlopt PRIVATE -w -Os)  # its own build says which warnings matter; beside a flight its time is nothing
set_property(SOURCE ${optimize} APPEND PROPERTY COMPILE_OPTIONS -include ${PROJECT_SOURCE_DIR}/nlopt/two_algorithms.h)
add_library(NLopt::nlopt ALIAS desk_nlopt)
is_found(NLopt)
