# Installation: program, library, headers, and the package files for find_package(jointrom).
include(CMakePackageConfigHelpers)
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/jointrom)

install(TARGETS jointrom_program)
install(TARGETS jointrom EXPORT jointrom_targets)
install(DIRECTORY include/jointrom DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
install(EXPORT jointrom_targets NAMESPACE jointrom:: DESTINATION ${package_dir})

configure_package_config_file(src/cmake/jointrom-config.cmake.in ${CMAKE_CURRENT_BINARY_DIR}/jointrom-config.cmake
  INSTALL_DESTINATION ${package_dir})
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/jointrom-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/jointrom-config.cmake
  ${CMAKE_CURRENT_BINARY_DIR}/jointrom-config-version.cmake DESTINATION ${package_dir})
