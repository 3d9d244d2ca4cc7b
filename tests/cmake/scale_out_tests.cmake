# A class measured in parts, by the recipes of examples/scale-out, gives the bytes of one run.
add_test(NAME scale_out.recipes COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/scale_out/check_scale_out.sh ${PROJECT_SOURCE_DIR}
  $<TARGET_FILE_DIR:jointrom_program> ${CMAKE_CURRENT_BINARY_DIR}/scale_out)
