# Installation in two parts: the program with its manual pages and completions, and what is needed to build on the
# library: archive, headers, and the package files for find_package(jointrom) and pkg-config.
include(CMakePackageConfigHelpers)
set(package_dir ${CMAKE_INSTALL_LIBDIR}/cmake/jointrom)

install(TARGETS jointrom_program COMPONENT program)
install(DIRECTORY ${shell_files}/man/ DESTINATION ${CMAKE_INSTALL_MANDIR}/man1 COMPONENT program)
install(FILES ${shell_files}/jointrom.bash RENAME jointrom
  DESTINATION ${CMAKE_INSTALL_DATADIR}/bash-completion/completions COMPONENT program)
install(FILES ${shell_files}/_jointrom DESTINATION ${CMAKE_INSTALL_DATADIR}/zsh/site-functions COMPONENT program)
install(FILES ${shell_files}/jointrom.fish
  DESTINATION ${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d COMPONENT program)

install(TARGETS jointrom EXPORT jointrom_targets COMPONENT development)
install(DIRECTORY include/jointrom DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT development)
install(EXPORT jointrom_targets NAMESPACE jointrom:: DESTINATION ${package_dir} COMPONENT development)

configure_package_config_file(src/cmake/jointrom-config.cmake.in ${CMAKE_CURRENT_BINARY_DIR}/jointrom-config.cmake
  INSTALL_DESTINATION ${package_dir})
# Before version 1 a new minor version may change what is there (semver.org, item 4).
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/jointrom-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/jointrom-config.cmake
  ${CMAKE_CURRENT_BINARY_DIR}/jointrom-config-version.cmake DESTINATION ${package_dir} COMPONENT development)

# The prefix as seen from the file itself, so that the installation can be moved.
set(pkgconfig_dir ${CMAKE_INSTALL_LIBDIR}/pkgconfig)
file(RELATIVE_PATH prefix_from_pkgconfig /${pkgconfig_dir} /)
configure_file(src/cmake/jointrom.pc.in jointrom.pc @ONLY)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/jointrom.pc DESTINATION ${pkgconfig_dir} COMPONENT development)
