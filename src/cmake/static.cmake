# -DJOINTROM_STATIC=ON (preset static): a program that needs no library on the machine that it is copied to.
option(JOINTROM_STATIC "Link the program without shared libraries" OFF)
if(JOINTROM_STATIC)
  set(OPENSSL_USE_STATIC_LIBS ON)
  add_link_options(-static)
endif()

# Debian's package for CMake knows the shared fmt only; the archive lies beside it.
function(jointrom_use_fmt_archive)
  find_library(fmt_archive libfmt.a REQUIRED)
  get_target_property(configurations fmt::fmt IMPORTED_CONFIGURATIONS)
  foreach(configuration IN LISTS configurations)
    set_target_properties(fmt::fmt PROPERTIES IMPORTED_LOCATION_${configuration} ${fmt_archive})
  endforeach()
endfunction()
