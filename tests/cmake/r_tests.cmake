# The program against R and its package psych, where they are installed; skipped, and shown as such, where not.
find_program(rscript_program Rscript)
if(rscript_program)
  add_test(NAME r.agreement_and_summary COMMAND ${rscript_program} ${CMAKE_CURRENT_SOURCE_DIR}/r/compare_with_r.R
    $<TARGET_FILE:jointrom_program> ${CMAKE_CURRENT_SOURCE_DIR}/reference/stats)
else()
  add_test(NAME r.agreement_and_summary COMMAND ${CMAKE_COMMAND} -E echo "skipped: Rscript is not installed")
endif()
set_tests_properties(r.agreement_and_summary PROPERTIES SKIP_REGULAR_EXPRESSION "skipped: ")
