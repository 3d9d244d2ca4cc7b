# Manual pages without a warning of groff's, completion at work in bash, and the syntax of the other shells'; what is not
# installed is skipped, and shown as such.
function(add_shell_test name program)
  find_program(found_${program} ${program})
  if(found_${program})
    add_test(NAME shell.${name} COMMAND ${ARGN})
  else()
    add_test(NAME shell.${name} COMMAND ${CMAKE_COMMAND} -E echo "skipped: ${program} is not installed")
  endif()
  set_tests_properties(shell.${name} PROPERTIES SKIP_REGULAR_EXPRESSION "skipped: ")
endfunction()

add_shell_test(bash_completion bash bash ${CMAKE_CURRENT_SOURCE_DIR}/shell/check_completion.bash
  ${shell_files}/jointrom.bash)
add_shell_test(zsh_syntax zsh zsh -n ${shell_files}/_jointrom)
add_shell_test(fish_syntax fish fish --no-execute ${shell_files}/jointrom.fish)
add_shell_test(fish_completion fish fish ${CMAKE_CURRENT_SOURCE_DIR}/shell/check_completion.fish
  ${shell_files}/jointrom.fish)
add_shell_test(man_pages groff sh ${CMAKE_CURRENT_SOURCE_DIR}/shell/check_man_pages.sh ${shell_files}/man)
