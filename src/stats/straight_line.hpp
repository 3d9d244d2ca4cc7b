#pragma once

/// \file
/// A least-squares line through points, and how sure its slope is.

#include <jointrom/stats/limits_of_agreement.hpp>

#include <span>

namespace jointrom {

/// \return everything is missing for fewer than three points or when all x are equal
/// \pre as many x as y, none missing
[[nodiscard]] MagnitudeTrend straight_line(std::span<const double> x, std::span<const double> y, double confidence);

}  // namespace jointrom
