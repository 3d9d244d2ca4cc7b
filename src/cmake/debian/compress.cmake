# Debian wants manual pages and changelogs compressed, without a time in them.
file(GLOB_RECURSE plain ${CPACK_TEMPORARY_DIRECTORY}/*.1 ${CPACK_TEMPORARY_DIRECTORY}/changelog
  ${CPACK_TEMPORARY_DIRECTORY}/changelog.Debian)
foreach(file IN LISTS plain)
  execute_process(COMMAND gzip -9nf ${file} COMMAND_ERROR_IS_FATAL ANY)
endforeach()
