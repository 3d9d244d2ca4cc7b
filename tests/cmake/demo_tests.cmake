# The demo session of data/demo is what examples/make_demo_session.py writes, byte for byte.
find_package(Python3 COMPONENTS Interpreter)
if(Python3_FOUND)
  add_test(NAME demo.session_is_reproducible COMMAND ${CMAKE_COMMAND} -DPYTHON=${Python3_EXECUTABLE}
    -DROOT=${PROJECT_SOURCE_DIR} -DSCRATCH=${CMAKE_CURRENT_BINARY_DIR}/demo
    -P ${CMAKE_CURRENT_SOURCE_DIR}/cmake/check_demo.cmake)
endif()
