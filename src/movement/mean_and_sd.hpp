#pragma once

/// \file
/// Mean and standard deviation of a few values. Private to movement/.

#include <cmath>
#include <limits>
#include <span>

namespace jointrom {

struct MeanAndSd {
    double mean = std::numeric_limits<double>::quiet_NaN();
    double sd = std::numeric_limits<double>::quiet_NaN();  ///< n - 1; missing for fewer than two values
};

inline MeanAndSd mean_and_sd(std::span<const double> values) {
    if (values.empty()) {
        return {};
    }
    const auto n = static_cast<double>(values.size());
    double sum = 0.0;
    for (const double x : values) {
        sum += x;
    }
    MeanAndSd result{.mean = sum / n};
    double squares = 0.0;
    for (const double x : values) {
        squares += (x - result.mean) * (x - result.mean);
    }
    if (values.size() > 1) {
        result.sd = std::sqrt(squares / (n - 1.0));
    }
    return result;
}

}  // namespace jointrom
