# Random bytes for every reader; see tests/fuzz/run.sh.
add_executable(fuzz ${CMAKE_CURRENT_SOURCE_DIR}/fuzz/fuzz_main.cpp ${CMAKE_CURRENT_SOURCE_DIR}/fuzz/targets.cpp
  ${CMAKE_CURRENT_SOURCE_DIR}/support/scratch_folder.cpp)
target_include_directories(fuzz PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
target_link_libraries(fuzz PRIVATE jointrom jointrom_developer)
target_link_options(fuzz PRIVATE -fsanitize=fuzzer)
