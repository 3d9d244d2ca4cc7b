# Warnings and sanitizers: one interface target that only our own targets link, so users' builds are left alone.
add_library(jointrom_developer INTERFACE)
# No fused multiply-add: results then agree to the last bit between compilers and machines.
target_compile_options(jointrom_developer INTERFACE -ffp-contract=off)
if(JOINTROM_DEVELOPER)
  target_compile_options(jointrom_developer INTERFACE -Wall -Wextra -Wpedantic -Wshadow -Wconversion
    -Wsign-conversion -Wold-style-cast -Wnon-virtual-dtor -Woverloaded-virtual -Wcast-align -Wdouble-promotion -Werror)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    # g++ 12 warns without cause inside std::string (GCC bug 105651).
    target_compile_options(jointrom_developer INTERFACE -Wno-restrict)
  endif()
endif()
if(JOINTROM_SANITIZE)
  target_compile_options(jointrom_developer INTERFACE
    -fsanitize=${JOINTROM_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(jointrom_developer INTERFACE -fsanitize=${JOINTROM_SANITIZE})
endif()
find_program(ccache_program ccache)
if(ccache_program)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${ccache_program})
endif()
