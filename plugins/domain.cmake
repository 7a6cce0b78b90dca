# casebound_domain(name [FOLDER folder] [SCHEMA file] [PACK folder] [OUTPUT folder] [NOT_INSTALLED])
# One domain plugin out of domain.cpp and the folders science/, rows/ and inquiries/ of `FOLDER`, with the text of
# `SCHEMA` embedded. Installed: the plugin, and the pack that it ships. The same file serves domains in the source tree
# and, installed, those of others.
#   casebound_<name>       the plugin: <OUTPUT>/<name>.so, which exports the manifest and nothing else
#   casebound_<name>_code  the same code as a static library, so that tests can call its computations
# In the sources: #include "core/contract/plugin.h", and "schema_sql.h" for casebound::<name>::schema_sql.
#   FOLDER  where domain.cpp is: the folder of the CMakeLists.txt when not given
#   SCHEMA  schema/<name>.sql there
#   PACK    seed-data/<name> there; a link to it lies beside the plugin, where the program looks for it
#   OUTPUT  plugins/ of the build
#
# casebound_cases(name folder) adds a ctest for each .case in `folder`; see casebound_case.sh.

set(CASEBOUND_PLUGIN_MAP ${CMAKE_CURRENT_LIST_DIR}/exports.map)
set(CASEBOUND_CASE_SCRIPT ${CMAKE_CURRENT_LIST_DIR}/casebound_case.sh)

# Hidden visibility alone still exports inlines of std:: and unique symbols, which would tie plugins together.
function(casebound_plugin_flags target)
  set_target_properties(${target} PROPERTIES CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON POSITION_INDEPENDENT_CODE ON)
  target_compile_options(${target} PRIVATE $<$<CXX_COMPILER_ID:GNU>:-fno-gnu-unique>)
  target_link_libraries(${target} PUBLIC casebound_options)
endfunction()

function(casebound_plugin_module target name output)
  set_target_properties(${target} PROPERTIES PREFIX "" SUFFIX ".so" OUTPUT_NAME ${name} LIBRARY_OUTPUT_DIRECTORY ${output}
    LINK_DEPENDS ${CASEBOUND_PLUGIN_MAP})
  target_link_libraries(${target} PRIVATE casebound_options)
  target_link_options(${target} PRIVATE -Wl,--version-script=${CASEBOUND_PLUGIN_MAP} -Wl,-z,now)
endfunction()

function(casebound_embed_schema name schema folder)
  if(NOT EXISTS ${schema})
    message(FATAL_ERROR "domain ${name}: ${schema} is not there: write the domain's tables into it")
  endif()
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${schema})
  file(READ ${schema} text)
  file(CONFIGURE OUTPUT ${folder}/schema_sql.h @ONLY CONTENT
"#pragma once
namespace casebound::@name@ {
extern const char* const schema_sql;
}
")
  file(CONFIGURE OUTPUT ${folder}/schema_sql.cpp @ONLY CONTENT
"#include \"schema_sql.h\"
namespace casebound::@name@ {
const char* const schema_sql = R\"~text~(@text@)~text~\";
}
")
endfunction()

# What the program finds: the pack as a folder beside the plugin.
function(casebound_pack_beside name pack output)
  file(MAKE_DIRECTORY ${output})
  if(NOT IS_SYMLINK ${output}/${name} AND EXISTS ${output}/${name}/schema_sql.h)
    file(REMOVE_RECURSE ${output}/${name})  # made by an earlier build, which kept its own files there
  endif()
  file(CREATE_LINK ${pack} ${output}/${name} SYMBOLIC)
endfunction()

function(casebound_domain name)
  cmake_parse_arguments(PARSE_ARGV 1 given "NOT_INSTALLED" "FOLDER;SCHEMA;PACK;OUTPUT" "")
  if(given_UNPARSED_ARGUMENTS)
    message(FATAL_ERROR "casebound_domain(${name}): ${given_UNPARSED_ARGUMENTS}: FOLDER, SCHEMA, PACK, OUTPUT or NOT_INSTALLED")
  endif()
  set(folder ${CMAKE_CURRENT_SOURCE_DIR})
  set(schema ${CMAKE_CURRENT_SOURCE_DIR}/schema/${name}.sql)
  set(pack ${CMAKE_CURRENT_SOURCE_DIR}/seed-data/${name})
  set(output ${CMAKE_BINARY_DIR}/plugins)
  foreach(word folder schema pack output)
    string(TOUPPER ${word} option)
    if(given_${option})
      get_filename_component(${word} ${given_${option}} ABSOLUTE)
    endif()
  endforeach()
  set(made ${CMAKE_CURRENT_BINARY_DIR}/made/${name})
  casebound_embed_schema(${name} ${schema} ${made})
  file(GLOB sources CONFIGURE_DEPENDS ${folder}/*.cpp ${folder}/science/*.cpp ${folder}/rows/*.cpp ${folder}/inquiries/*.cpp)

  add_library(casebound_${name}_objects OBJECT ${sources} ${made}/schema_sql.cpp)
  casebound_plugin_flags(casebound_${name}_objects)
  target_include_directories(casebound_${name}_objects PRIVATE ${made} ${folder})
  if(CASEBOUND_UNITY)  # in the source tree; each file of science/ is a table of its own, with names of its own
    file(GLOB science ${folder}/science/*.cpp)
    set_source_files_properties(${science} PROPERTIES SKIP_UNITY_BUILD_INCLUSION ON)
    set_target_properties(casebound_${name}_objects PROPERTIES UNITY_BUILD ON UNITY_BUILD_BATCH_SIZE 12)
  endif()

  add_library(casebound_${name}_code STATIC EXCLUDE_FROM_ALL $<TARGET_OBJECTS:casebound_${name}_objects>)
  target_include_directories(casebound_${name}_code PUBLIC ${folder})
  target_link_libraries(casebound_${name}_code PUBLIC casebound_options)

  add_library(casebound_${name} MODULE $<TARGET_OBJECTS:casebound_${name}_objects>)
  casebound_plugin_module(casebound_${name} ${name} ${output})
  target_link_options(casebound_${name} PRIVATE $<$<CXX_COMPILER_ID:GNU>:-Wl,-z,defs>)  # clang leaves what a sanitizer needs to the program

  if(NOT given_NOT_INSTALLED)
    install(TARGETS casebound_${name} LIBRARY DESTINATION lib/casebound/plugins)
  endif()
  if(IS_DIRECTORY ${pack})
    casebound_pack_beside(${name} ${pack} ${output})
    if(NOT given_NOT_INSTALLED)
      install(DIRECTORY ${pack}/ DESTINATION share/casebound/packs/${name})
    endif()
  endif()
endfunction()

function(casebound_cases name folder)
  get_filename_component(folder ${folder} ABSOLUTE)
  file(GLOB cases CONFIGURE_DEPENDS ${folder}/*.case)
  foreach(case IN LISTS cases)
    get_filename_component(claim ${case} NAME_WE)
    add_test(NAME "${name}: ${claim}" COMMAND sh ${CASEBOUND_CASE_SCRIPT} $<TARGET_FILE:casebound::casebound>
      $<TARGET_FILE_DIR:casebound_${name}> ${CMAKE_CURRENT_SOURCE_DIR}/seed-data ${case})
  endforeach()
endfunction()
