#pragma once

#include <string_view>

/// The files of data/norms, built into the library.
namespace jointrom::embedded {

extern const std::string_view norms_csv;
extern const std::string_view sources_csv;
extern const std::string_view functional_arcs_csv;
extern const std::string_view measurement_error_csv;

}  // namespace jointrom::embedded
