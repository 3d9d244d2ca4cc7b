# The structure of the project, tested: includes follow layout/edges.txt, and code that mixes units does not compile. That
# each header compiles alone is shown by the target lone_headers, which tests/run-sanitized.sh builds.
add_test(NAME layout.includes COMMAND ${CMAKE_COMMAND} -DROOT=${PROJECT_SOURCE_DIR}
  -P ${CMAKE_CURRENT_SOURCE_DIR}/cmake/check_includes.cmake)
set_tests_properties(layout.includes PROPERTIES LABELS layout)

file(GLOB_RECURSE public_headers CONFIGURE_DEPENDS RELATIVE ${PROJECT_SOURCE_DIR}/include
  ${PROJECT_SOURCE_DIR}/include/*.hpp)
set(lone_sources)
foreach(header IN LISTS public_headers)
  string(REPLACE "/" "_" stem ${header})
  set(source ${CMAKE_CURRENT_BINARY_DIR}/lone_headers/${stem}.cpp)
  file(CONFIGURE OUTPUT ${source} CONTENT "#include <${header}>\n" @ONLY)
  list(APPEND lone_sources ${source})
endforeach()
add_library(lone_headers OBJECT EXCLUDE_FROM_ALL ${lone_sources})
target_link_libraries(lone_headers PRIVATE jointrom jointrom_developer)

foreach(name IN ITEMS units_fit hertz_for_degrees bare_double)
  add_library(compile_${name} OBJECT EXCLUDE_FROM_ALL compile_fail/${name}.cpp)
  target_link_libraries(compile_${name} PRIVATE jointrom)
  add_test(NAME compile_fail.${name} COMMAND ${CMAKE_COMMAND} --build ${CMAKE_BINARY_DIR} --target compile_${name})
  set_tests_properties(compile_fail.${name} PROPERTIES RESOURCE_LOCK build_tree)
endforeach()
set_tests_properties(compile_fail.hertz_for_degrees compile_fail.bare_double PROPERTIES WILL_FAIL ON)
