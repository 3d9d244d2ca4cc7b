#pragma once

/// \file
/// The version of the library and program.

#include <string_view>

namespace jointrom {

/// Semantic version, e.g. "0.1.0".
[[nodiscard]] std::string_view version();

}  // namespace jointrom
