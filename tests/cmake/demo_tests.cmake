# The demo session of data/demo is what examples/make-demo-session.sh writes, byte for byte; skipped, and shown as such,
# without jq.
add_test(NAME demo.session_is_reproducible COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/demo/check_demo.sh ${PROJECT_SOURCE_DIR}
  $<TARGET_FILE_DIR:jointrom_program> ${CMAKE_CURRENT_BINARY_DIR}/demo)
set_tests_properties(demo.session_is_reproducible PROPERTIES SKIP_REGULAR_EXPRESSION "skipped: ")
