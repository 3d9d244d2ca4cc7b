# What happens when output cannot be written.
add_test(NAME faults.writing COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/faults/check_writing.sh ${PROJECT_SOURCE_DIR}
  $<TARGET_FILE_DIR:jointrom_program> ${CMAKE_CURRENT_BINARY_DIR}/faults)
