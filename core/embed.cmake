# embed_text(file symbol output): `output` defines `const char* const casebound::symbol` with the file's text.
function(embed_text file symbol output)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
  if(EXISTS ${file})
    file(READ ${file} text)
  endif()
  file(CONFIGURE OUTPUT ${output} @ONLY CONTENT
"namespace casebound {
extern const char* const @symbol@;
const char* const @symbol@ = R\"~text~(@text@)~text~\";
}
")
endfunction()
