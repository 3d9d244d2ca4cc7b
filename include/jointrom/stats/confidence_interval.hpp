#pragma once

/// \file
/// A confidence interval.

#include <limits>

namespace jointrom {

/// Both ends of a two-sided interval; missing (NaN) where there is none.
struct ConfidenceInterval {
    double low = std::numeric_limits<double>::quiet_NaN();
    double high = std::numeric_limits<double>::quiet_NaN();
};

}  // namespace jointrom
