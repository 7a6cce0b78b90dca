# casebound_domain(name folder schema [output])
# One domain plugin out of every .cpp in `folder`, with the text of the file `schema` embedded.
#   casebound_<name>       the plugin: <output>/<name>.so, which exports the manifest and nothing else
#   casebound_<name>_code  the same code as a static library, so that tests can call its computations
# In the sources: #include "core/contract/plugin.h", and "schema_sql.h" for casebound::<name>::schema_sql.
# `output` is the folder plugins/ of the build when not given.

set(CASEBOUND_PLUGIN_MAP ${CMAKE_CURRENT_LIST_DIR}/exports.map)

# Hidden visibility alone still exports inlines of std:: and unique symbols, which would tie plugins together.
function(casebound_plugin_flags target)
  set_target_properties(${target} PROPERTIES CXX_VISIBILITY_PRESET hidden VISIBILITY_INLINES_HIDDEN ON POSITION_INDEPENDENT_CODE ON)
  target_compile_options(${target} PRIVATE -fno-gnu-unique)
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

function(casebound_domain name folder schema)
  set(output ${CMAKE_BINARY_DIR}/plugins)
  if(ARGC GREATER 3)
    set(output ${ARGV3})
  endif()
  set(made ${CMAKE_CURRENT_BINARY_DIR}/${name})
  casebound_embed_schema(${name} ${schema} ${made})
  file(GLOB sources CONFIGURE_DEPENDS ${folder}/*.cpp)

  add_library(casebound_${name}_objects OBJECT ${sources} ${made}/schema_sql.cpp)
  casebound_plugin_flags(casebound_${name}_objects)
  target_include_directories(casebound_${name}_objects PRIVATE ${made})

  add_library(casebound_${name}_code STATIC $<TARGET_OBJECTS:casebound_${name}_objects>)
  target_link_libraries(casebound_${name}_code PUBLIC casebound_options)

  add_library(casebound_${name} MODULE $<TARGET_OBJECTS:casebound_${name}_objects>)
  casebound_plugin_module(casebound_${name} ${name} ${output})
  target_link_options(casebound_${name} PRIVATE -Wl,-z,defs)
endfunction()
