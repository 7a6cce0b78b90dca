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

# embed_folder(folder symbol output): `output` defines `const EmbeddedFile* const casebound::symbol`, every file of the
# folder and its folders with its path in it, closed by one without a path.
function(embed_folder folder symbol output)
  file(GLOB_RECURSE files LIST_DIRECTORIES false RELATIVE ${folder} CONFIGURE_DEPENDS ${folder}/*)
  set(entries "")
  foreach(file IN LISTS files)
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${folder}/${file})
    file(READ ${folder}/${file} text)
    string(APPEND entries "    {\"${file}\", R\"~text~(${text})~text~\"},\n")
  endforeach()
  file(CONFIGURE OUTPUT ${output} @ONLY CONTENT
"#include \"core/ground/embedded_file.h\"
namespace casebound {
extern const EmbeddedFile* const @symbol@;
static const EmbeddedFile files[] = {
@entries@    {nullptr, nullptr}};
const EmbeddedFile* const @symbol@ = files;
}
")
endfunction()
