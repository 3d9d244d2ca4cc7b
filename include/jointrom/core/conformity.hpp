#pragma once

/// \file
/// Is a measured value inside a tolerance, given how uncertain it is? (JCGM 106:2012; ISO 14253-1)

#include <jointrom/core/uncertainty.hpp>

#include <limits>
#include <string_view>

namespace jointrom {

/// A tolerance interval; a limit that is infinite is no limit.
struct Tolerance {
    double lower = -std::numeric_limits<double>::infinity();
    double upper = std::numeric_limits<double>::infinity();
};

enum class Conformity { inside, outside, undecided };

[[nodiscard]] std::string_view name_of(Conformity conformity);

/// Inside, outside, or not to be told.
///
/// Method: inside when the value lies in the tolerance narrowed by the guard band, outside when it lies beyond the
/// tolerance widened by it, both borders included in "inside" and excluded from "outside" (ISO 14253-1 with
/// guard = expanded uncertainty; guard = 0 is simple acceptance).
/// Missing samples: a missing value or guard is undecided.
[[nodiscard]] Conformity conformity(double value, Tolerance tolerance, double guard);

/// Probability that the true value lies in the tolerance, the value's error being normal.
///
/// Method: Phi((upper - value)/u) - Phi((lower - value)/u); 0 or 1 when u is 0.
/// \par Reference JCGM 106:2012, clause 7.
[[nodiscard]] double conformity_probability(Uncertain measured, Tolerance tolerance);

}  // namespace jointrom
