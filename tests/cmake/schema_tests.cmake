# What the program writes as JSON is what its schemas say; skipped, and shown as such, without python3-jsonschema.
if(Python3_FOUND)
  add_test(NAME schema.outputs COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_SOURCE_DIR}/schema/check_schemas.py
    ${PROJECT_SOURCE_DIR} $<TARGET_FILE:jointrom_program> ${CMAKE_CURRENT_BINARY_DIR}/schema)
  set_tests_properties(schema.outputs PROPERTIES SKIP_REGULAR_EXPRESSION "skipped: ")
endif()
