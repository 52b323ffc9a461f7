# loader.js and worker.js as one script without imports: a page opened from a file can hand a worker only a text of its own.
#   cmake -DTO=FILE -P bundle.cmake
file(READ ${CMAKE_CURRENT_LIST_DIR}/loader.js loader)
file(READ ${CMAKE_CURRENT_LIST_DIR}/worker.js worker)
string(REPLACE "\nexport " "\n" loader "${loader}")
string(REPLACE "import { open } from \"./loader.js\";\n" "" worker "${worker}")
if("${loader}${worker}" MATCHES "\n(import|export) ")
  message(FATAL_ERROR "an import or export is left in the worker's script")
endif()
file(WRITE ${TO} "${loader}\n${worker}")
