# What `cmake --install` and `cpack -G DEB` bring, besides the plugins and their packs (plugins/domain.cmake installs
# those). Every file finds the others from where it lies itself, so the whole may be installed into any prefix, and moved.
include(CMakePackageConfigHelpers)

set(made ${CMAKE_BINARY_DIR}/packaging)
set(cmake_folder lib/cmake/casebound)
install(TARGETS casebound RUNTIME DESTINATION bin)

# For whoever builds a domain: the contract, and how it is built.
install(DIRECTORY core/contract DESTINATION include/casebound/core FILES_MATCHING PATTERN *.h)
string(REGEX MATCH "^[0-9]+" compiler_release "${CMAKE_CXX_COMPILER_VERSION}")
set(CASEBOUND_COMPILER "${CMAKE_CXX_COMPILER_ID} ${compiler_release}")
configure_file(.packaging/casebound-config.cmake.in ${made}/casebound-config.cmake @ONLY)
write_basic_package_version_file(${made}/casebound-config-version.cmake COMPATIBILITY SameMinorVersion)
install(FILES ${made}/casebound-config.cmake ${made}/casebound-config-version.cmake plugins/domain.cmake
  plugins/exports.map DESTINATION ${cmake_folder})
install(PROGRAMS plugins/casebound_case.sh DESTINATION ${cmake_folder})

# Schemas; and the demo, which is invented, apart from the reference packs that plugins ship.
install(DIRECTORY schema DESTINATION share/casebound)
install(DIRECTORY seed-data/demo-fleet DESTINATION share/casebound/invented)

# Licences: our own, and those of the libraries, which the README lists.
file(READ README.md readme)
string(REGEX MATCH "\\| library \\| licence \\|.*\n\\|[^\n]*\n" libraries "${readme}")
if(NOT libraries)
  message(FATAL_ERROR "README.md: the table of libraries is gone: the package needs it")
endif()
file(READ LICENSE licence)
file(WRITE ${made}/copyright "casebound\n\n${licence}\nWhat it is built with\n\n${libraries}")
install(FILES LICENSE README.md ${made}/copyright DESTINATION share/doc/casebound)

# Written by the program itself, out of its one table of commands.
set(completion_bash share/bash-completion/completions casebound)
set(completion_zsh share/zsh/site-functions _casebound)
set(completion_fish share/fish/vendor_completions.d casebound.fish)
set(written ${made}/casebound.1)
set(writing COMMAND casebound manual > ${made}/casebound.1)
foreach(shell bash zsh fish)
  list(GET completion_${shell} 0 folder)
  list(GET completion_${shell} 1 name)
  list(APPEND writing COMMAND casebound completion ${shell} > ${made}/${shell}/${name})
  list(APPEND written ${made}/${shell}/${name})
  file(MAKE_DIRECTORY ${made}/${shell})
  install(FILES ${made}/${shell}/${name} DESTINATION ${folder})
endforeach()
install(FILES ${made}/zsh/_casebound DESTINATION share/zsh/vendor-completions)  # where Debian's zsh looks
find_program(GZIP gzip REQUIRED)
add_custom_command(OUTPUT ${written} ${made}/casebound.1.gz ${writing}
  COMMAND ${GZIP} -9nkf ${made}/casebound.1 DEPENDS casebound VERBATIM
  COMMENT "Writing the manual page and the completions of the shells")
add_custom_target(casebound_manual ALL DEPENDS ${written} ${made}/casebound.1.gz)
install(FILES ${made}/casebound.1.gz DESTINATION share/man/man1)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME casebound)
set(CPACK_PACKAGE_VENDOR "the casebound contributors")
set(CPACK_PACKAGE_CONTACT "The casebound contributors <contributors@casebound.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "which parts and fluids fit a vehicle, before anything is ordered")
set(CPACK_PACKAGE_DESCRIPTION "Tells somebody who repairs an ailing used vehicle which filter, fluid, seal, mount
and solenoid fits this very vehicle, what to find out first where it is only
partly known, and what the cheapest order is. Every answer carries its reason
and its source. Domains of your own are built against it: casebound domain new.")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
string(REPLACE ".so." "" xlsxwriter_package ${XLSXWRITER_NAME})  # loaded by name, so that no tool sees it
set(CPACK_DEBIAN_PACKAGE_DEPENDS ${xlsxwriter_package})
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_SUGGESTS "g++ (>= 4:${compiler_release}), cmake (>= 3.25)")
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
  WORLD_READ WORLD_EXECUTE)
include(CPack)
