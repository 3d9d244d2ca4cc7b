# The installed package serves the programs of examples/library. A sanitized library cannot: its users would need the flags as well.
if(NOT JOINTROM_SANITIZE)
  add_test(NAME install.outside_project COMMAND ${CMAKE_COMMAND} -DBUILD=${PROJECT_BINARY_DIR}
    -DROOT=${PROJECT_SOURCE_DIR} -DSCRATCH=${CMAKE_CURRENT_BINARY_DIR}/install -DVERSION=${PROJECT_VERSION}
    -DGENERATOR=${CMAKE_GENERATOR} -DCOMPILER=${CMAKE_CXX_COMPILER}
    -P ${CMAKE_CURRENT_SOURCE_DIR}/cmake/check_install.cmake)
endif()
