#pragma once

#include <algorithm>
#include <vector>

namespace jointrom {

/// Middle value, or the mean of the two middle ones; reorders `values`. \pre not empty, no value is NaN
inline double median_of(std::vector<double>& values) {
    const auto upper = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, upper);
    return values.size() % 2 == 1 ? *upper : (*std::max_element(values.begin(), upper) + *upper) / 2.0;
}

}  // namespace jointrom
