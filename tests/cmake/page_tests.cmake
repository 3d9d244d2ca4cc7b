# Pages for people: as text, and in a browser where one is installed.
find_package(Python3 COMPONENTS Interpreter)
if(Python3_FOUND)
  foreach(kind IN ITEMS text browser)
    add_test(NAME pages.${kind} COMMAND ${Python3_EXECUTABLE} ${CMAKE_CURRENT_SOURCE_DIR}/pages/check_pages.py ${kind}
      $<TARGET_FILE:jointrom_program> ${PROJECT_SOURCE_DIR} ${CMAKE_CURRENT_BINARY_DIR}/pages_${kind})
  endforeach()
  set_tests_properties(pages.text pages.browser PROPERTIES ENVIRONMENT PYTHONDONTWRITEBYTECODE=1)
  set_tests_properties(pages.browser PROPERTIES SKIP_RETURN_CODE 77)
endif()
