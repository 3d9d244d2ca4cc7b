# cpack -G DEB, in the build folder of the preset "package": jointrom, the program, and libjointrom-dev, for those who
# build on the library. lintian 2.116 has nothing against them but that they close no bug of Debian's.
set(doc_dir ${CMAKE_INSTALL_DATADIR}/doc)
configure_file(src/cmake/debian/changelog.in changelog.Debian @ONLY)
foreach(part_and_name IN ITEMS "program;jointrom" "development;libjointrom-dev")
  list(GET part_and_name 0 part)
  list(GET part_and_name 1 name)
  install(FILES src/cmake/debian/copyright DESTINATION ${doc_dir}/${name} COMPONENT ${part})
  install(FILES ${CMAKE_CURRENT_BINARY_DIR}/changelog.Debian DESTINATION ${doc_dir}/${name} COMPONENT ${part})
  install(FILES docs/CHANGELOG.md RENAME changelog DESTINATION ${doc_dir}/${name} COMPONENT ${part})
endforeach()

set(CPACK_PACKAGE_VENDOR "The jointrom maintainers")
set(CPACK_PACKAGE_CONTACT "The jointrom maintainers <maintainers@jointrom.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "joint angles and range of motion from electrogoniometers")
set(CPACK_PACKAGING_INSTALL_PREFIX ${CMAKE_INSTALL_PREFIX})
set(CPACK_COMPONENTS_ALL program development)
set(CPACK_STRIP_FILES ON)
set(CPACK_PRE_BUILD_SCRIPTS ${PROJECT_SOURCE_DIR}/src/cmake/debian/compress.cmake)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS
  OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ WORLD_EXECUTE)

set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_NAME jointrom)
set(CPACK_DEBIAN_PROGRAM_PACKAGE_SECTION science)
set(CPACK_COMPONENT_PROGRAM_DESCRIPTION
  "Turns the CSV files of a data logger into joint angles that can be trusted,
and measures postures, range of motion, repetitions, phases, muscle activity
and the load on a joint, with the uncertainty of every angle.")
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_NAME libjointrom-dev)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_SECTION libdevel)
set(CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS
  "libfmt-dev, libssl-dev, libeigen3-dev, libboost-dev, libfast-float-dev, nlohmann-json3-dev")
if(edf_link_flag)
  string(APPEND CPACK_DEBIAN_DEVELOPMENT_PACKAGE_DEPENDS ", libedf-dev")
endif()
set(CPACK_COMPONENT_DEVELOPMENT_DESCRIPTION
  "The C++20 library behind the program jointrom: headers, archive, and package
files for CMake and pkg-config.")
include(CPack)
