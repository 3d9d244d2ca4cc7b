# Manual pages and completions, written by a program that asks the commands what they take.
set(shell_files ${CMAKE_CURRENT_BINARY_DIR}/shell_files)
add_executable(write_shell_files src/cli/write_shell_files.cpp)
target_link_libraries(write_shell_files PRIVATE jointrom_cli jointrom_developer)
add_custom_command(OUTPUT ${shell_files}/jointrom.bash
  COMMAND write_shell_files ${shell_files} DEPENDS write_shell_files COMMENT "Manual pages and completions")
add_custom_target(shell_files ALL DEPENDS ${shell_files}/jointrom.bash)
