# loftwright_embed(ROOT OUTPUT HEADER SYMBOL FILE...): a source file that holds each ROOT/FILE as text, in an array SYMBOL and its
# length SYMBOLCount, which HEADER declares.
function(loftwright_embed root output header symbol)
  set(body "// Generated. Do not edit.\n#include \"${header}\"\n\nnamespace loftwright {\n\nconst EmbeddedFile ${symbol}[] = {\n")
  list(SORT ARGN)
  foreach(name IN LISTS ARGN)
    file(READ ${root}/${name} text)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${root}/${name})
    string(APPEND body "    {\"${name}\", R\"~~~(${text})~~~\"},\n")
  endforeach()
  list(LENGTH ARGN count)
  string(APPEND body "};\nconst std::size_t ${symbol}Count = ${count};\n\n}  // namespace loftwright\n")
  file(CONFIGURE OUTPUT ${output} CONTENT "${body}" @ONLY)
endfunction()
