# One test for each folder golden/COMMAND/CASE: its arguments, and what the program must answer.
file(GLOB case_files CONFIGURE_DEPENDS ${CMAKE_CURRENT_SOURCE_DIR}/golden/*/*/args)
foreach(case_file IN LISTS case_files)
  get_filename_component(case_dir ${case_file} DIRECTORY)
  file(RELATIVE_PATH name ${CMAKE_CURRENT_SOURCE_DIR}/golden ${case_dir})
  string(REPLACE "/" "." name ${name})
  add_test(NAME golden.${name} COMMAND ${CMAKE_COMMAND} -DPROGRAM=$<TARGET_FILE:jointrom_program> -DCASE=${case_dir}
    -DSCRATCH=${CMAKE_CURRENT_BINARY_DIR}/golden/${name} -P ${CMAKE_CURRENT_SOURCE_DIR}/cmake/run_case.cmake)
endforeach()
