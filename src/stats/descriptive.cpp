#include <jointrom/stats/descriptive.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {

Description describe(std::span<const double> values) {
    Description result;
    double sum = 0.0;
    double min = std::numeric_limits<double>::infinity();
    double max = -min;
    for (const double value : values) {
        if (std::isnan(value)) {
            ++result.missing;
            continue;
        }
        ++result.count;
        sum += value;
        min = std::min(min, value);
        max = std::max(max, value);
    }
    if (result.count == 0) {
        return result;
    }
    const auto n = static_cast<double>(result.count);
    const double rough_mean = sum / n;
    double deviations = 0.0;
    double squares = 0.0;
    for (const double value : values) {
        if (!std::isnan(value)) {
            deviations += value - rough_mean;
            squares += (value - rough_mean) * (value - rough_mean);
        }
    }
    result.mean = rough_mean + deviations / n;
    result.min = min;
    result.max = max;
    if (result.count > 1) {
        result.sd = std::sqrt(std::max(0.0, squares - deviations * deviations / n) / (n - 1.0));
    }
    return result;
}

}  // namespace jointrom
