# The documents are true: commands print what the README and the pages of commands show, and links lead somewhere.
file(GLOB command_pages CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/docs/commands/*.md)
set(pages ${command_pages} ${PROJECT_SOURCE_DIR}/README.md ${PROJECT_SOURCE_DIR}/docs/first-hour.md)
foreach(document IN LISTS pages)
  get_filename_component(name ${document} NAME_WE)
  add_test(NAME readme.commands.${name} COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/readme/check_readme.sh ${document}
    ${PROJECT_SOURCE_DIR} $<TARGET_FILE_DIR:jointrom_program> ${CMAKE_CURRENT_BINARY_DIR}/readme/${name})
endforeach()
add_test(NAME readme.links COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/readme/check_links.sh ${PROJECT_SOURCE_DIR})
add_test(NAME readme.snippets COMMAND python3 ${CMAKE_CURRENT_SOURCE_DIR}/readme/check_snippets.py
  ${PROJECT_SOURCE_DIR}/docs/scripting.md ${PROJECT_SOURCE_DIR} $<TARGET_FILE_DIR:jointrom_program>
  ${CMAKE_CURRENT_BINARY_DIR}/readme/snippets)
