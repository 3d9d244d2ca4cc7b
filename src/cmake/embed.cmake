# jointrom_embed(FILE NAME): builds a text file into the library as `jointrom::embedded::NAME`, a std::string_view. The
# using source declares it: namespace jointrom::embedded { extern const std::string_view NAME; }
function(jointrom_embed file name)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${PROJECT_SOURCE_DIR}/${file})
  file(READ ${PROJECT_SOURCE_DIR}/${file} text)
  # In pieces, because some compilers limit the length of one literal.
  string(REGEX REPLACE "\n" ")__\"\n    R\"__(\n" text "${text}")
  file(CONFIGURE OUTPUT ${PROJECT_BINARY_DIR}/embedded/${name}.cpp @ONLY CONTENT
"// Made from ${file} when the project was configured.
#include <string_view>

namespace jointrom::embedded {

extern const std::string_view @name@;
constexpr std::string_view @name@ = R\"__(@text@)__\";

}  // namespace jointrom::embedded
")
  target_sources(jointrom PRIVATE ${PROJECT_BINARY_DIR}/embedded/${name}.cpp)
endfunction()
