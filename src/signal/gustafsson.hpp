#pragma once

#include <jointrom/signal/butterworth.hpp>

#include <span>
#include <vector>

namespace jointrom {

/// zero_phase() by Gustafsson's rule: no padding, end states by least squares.
[[nodiscard]] std::vector<double> gustafsson_zero_phase(std::span<const double> samples, const Sections& sections);

}  // namespace jointrom
