# -DJOINTROM_STATIC=ON (preset static): a program that needs no library on the machine that it is copied to.
option(JOINTROM_STATIC "Link the program without shared libraries" OFF)
set(jointrom_fmt fmt::fmt)
if(JOINTROM_STATIC)
  set(OPENSSL_USE_STATIC_LIBS ON)
  set(jointrom_fmt fmt::fmt-header-only)  # Debian has no archive of fmt
  add_link_options(-static)
endif()
