# Installs into a scratch folder, builds examples/library against what was installed, as a project of somebody else
# would, and runs what was built. With pkg-config, one of them is built by its words as well.
cmake_minimum_required(VERSION 3.25)
set(prefix ${SCRATCH}/prefix)
set(outside ${SCRATCH}/outside)
set(demo ${ROOT}/data/demo)
file(REMOVE_RECURSE ${SCRATCH})

function(run)
  execute_process(COMMAND ${ARGV} OUTPUT_VARIABLE out ERROR_VARIABLE err RESULT_VARIABLE status)
  if(NOT status EQUAL 0)
    message(FATAL_ERROR "failed: ${ARGV}\n${out}${err}")
  endif()
  set(output "${out}" PARENT_SCOPE)
endfunction()

function(expect wanted)
  run(${ARGN})
  if(NOT output STREQUAL wanted)
    message(FATAL_ERROR "${ARGN} printed\n${output}\nwanted\n${wanted}")
  endif()
endfunction()

run(${CMAKE_COMMAND} --install ${BUILD} --prefix ${prefix})
run(${CMAKE_COMMAND} -S ${ROOT}/examples/library -B ${outside} -G ${GENERATOR} -DCMAKE_CXX_COMPILER=${COMPILER}
  -DCMAKE_PREFIX_PATH=${prefix})
run(${CMAKE_COMMAND} --build ${outside})
# The README shows the first three numbers, as the program gives them.
set(range "flexion 145.65 +- 3.21 deg (95 %)\nextension -4.63 +- 3.21 deg (95 %)\narc 150.28 +- 3.25 deg (95 %)\n")
expect("${range}" ${outside}/range_of_file ${demo}/P01_right_elbow.csv)
expect("20 recordings, arc 129.5 deg, SD 5.9 deg\n" ${outside}/class_in_memory)
run(${outside}/own_measurement ${demo}/P01_right_elbow.csv 90)
if(NOT output MATCHES "^beyond 90 deg of flexion: [0-9.]+ s\n$")
  message(FATAL_ERROR "own_measurement printed\n${output}")
endif()
expect("jointrom ${VERSION}\n" ${prefix}/bin/jointrom --version)

foreach(file IN ITEMS man/man1/jointrom.1 man/man1/jointrom-range.1 bash-completion/completions/jointrom
                      zsh/site-functions/_jointrom fish/vendor_completions.d/jointrom.fish)
  if(NOT EXISTS ${prefix}/share/${file})
    message(FATAL_ERROR "share/${file} was not installed")
  endif()
endforeach()

find_program(pkg_config pkg-config)
if(pkg_config)
  file(GLOB_RECURSE description ${prefix}/*/jointrom.pc)
  get_filename_component(folder ${description} DIRECTORY)
  run(${CMAKE_COMMAND} -E env PKG_CONFIG_PATH=${folder} ${pkg_config} --cflags --libs jointrom)
  separate_arguments(flags UNIX_COMMAND "${output}")
  run(${COMPILER} -std=c++20 ${ROOT}/examples/library/range_of_file.cpp ${flags} -o ${SCRATCH}/by_pkg_config)
  expect("${range}" ${SCRATCH}/by_pkg_config ${demo}/P01_right_elbow.csv)
endif()
