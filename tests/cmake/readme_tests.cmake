# The documents are true: commands print what the README shows, and links lead somewhere.
add_test(NAME readme.commands COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/readme/check_readme.sh ${PROJECT_SOURCE_DIR}/README.md
  ${PROJECT_SOURCE_DIR} $<TARGET_FILE_DIR:jointrom_program> ${CMAKE_CURRENT_BINARY_DIR}/readme)
add_test(NAME readme.links COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/readme/check_links.sh ${PROJECT_SOURCE_DIR})
