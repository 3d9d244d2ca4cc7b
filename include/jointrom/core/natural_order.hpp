#pragma once

/// \file
/// The order that people give to names with numbers in them.

#include <string_view>

namespace jointrom {

/// Whether `a` comes before `b`: runs of digits are compared as numbers ("P2" before "P10"), all else byte by byte.
/// Different texts are never equal: of "1" and "01" the shorter comes first.
[[nodiscard]] bool natural_less(std::string_view a, std::string_view b);

}  // namespace jointrom
