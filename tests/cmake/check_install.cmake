# Installs into a scratch folder, builds tests/install against what was installed, and runs that and the program.
cmake_minimum_required(VERSION 3.25)
set(prefix ${SCRATCH}/prefix)
set(outside ${SCRATCH}/outside)
file(REMOVE_RECURSE ${SCRATCH})

function(run)
  execute_process(COMMAND ${ARGV} OUTPUT_VARIABLE out ERROR_VARIABLE out RESULT_VARIABLE status)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "failed: ${ARGV}\n${out}")
  endif()
  set(output "${out}" PARENT_SCOPE)
endfunction()

run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${prefix})
run(${CMAKE_COMMAND} -S ${ROOT}/tests/install -B ${outside} -G ${GENERATOR} -DCMAKE_CXX_COMPILER=${COMPILER}
  -DCMAKE_PREFIX_PATH=${prefix})
run(${CMAKE_COMMAND} --build ${outside})
run(${outside}/consumer)
set(wanted "jointrom ${VERSION}\nu 0.500 deg\n")
if(NOT output STREQUAL wanted)
  message(FATAL_ERROR "the outside project printed\n${output}\nwanted\n${wanted}")
endif()
run(${prefix}/bin/jointrom --version)
