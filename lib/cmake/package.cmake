# What a user reads, and two Debian packages: the program with its documents, and the library for other programs with its own.
install(FILES README.md DEVELOPERS.md DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program)
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR} RENAME copyright COMPONENT program)
install(DIRECTORY docs data DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program
        PATTERN docs/library.md EXCLUDE PATTERN docs/examples EXCLUDE PATTERN docs/Doxyfile.in EXCLUDE)
install(FILES docs/library.md DESTINATION ${CMAKE_INSTALL_DOCDIR}/docs COMPONENT library)
install(DIRECTORY docs/examples DESTINATION ${CMAKE_INSTALL_DOCDIR}/docs COMPONENT library)
install(FILES LICENSE DESTINATION ${CMAKE_INSTALL_DOCDIR}-dev RENAME copyright COMPONENT library)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "The loftwright maintainers <maintainers@loftwright.invalid>")
set(CPACK_STRIP_FILES ON)
set(CPACK_COMPONENTS_ALL program library)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION "For a golf coach: would a change of swing, or a driver of another loft, buy
this pupil more yards? Computes impact, flight and run from the measured
delivery, searches loft and attack under the pupil's limits, and says in one
sentence what to change and how sure that is.")
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME loftwright)
set(CPACK_DEBIAN_PROGRAM_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SHLIBDEPS ON)
set(CPACK_COMPONENT_LIBRARY_DESCRIPTION "The library behind loftwright, for programs of your own
Headers, a static library, its CMake package, and examples.")
set(CPACK_DEBIAN_LIBRARY_PACKAGE_NAME loftwright-dev)
set(CPACK_DEBIAN_LIBRARY_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_LIBRARY_PACKAGE_DEPENDS "libnlopt-dev, libfmt-dev")  # what a program is linked with
set(CPACK_DEBIAN_LIBRARY_PACKAGE_SUGGESTS "loftwright, cmake, g++")
include(CPack)
