# What a user reads, and the Debian package: the program with it. The library is for `cmake --install`.
install(FILES README.md DEVELOPERS.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright COMPONENT program)
install(DIRECTORY docs data DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The loftwright maintainers <maintainers@loftwright.invalid>")
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "For a golf coach: would a change of swing, or a driver of another loft, buy
this pupil more yards? Computes impact, flight and run from the measured
delivery, searches loft and attack under the pupil's limits, and says in one
sentence what to change and how sure that is.")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME loftwright)
set(CPACK_DEBIAN_PROGRAM_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
include(CPack)
