#include <jointrom/stats/descriptive.hpp>

#include "stats/order_free_sum.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

/// Calls `use` with every value that is not missing.
template <typename Use>
void each_present(std::span<const double> values, Use use) {
    for (const double value : values) {
        if (!std::isnan(value)) {
            use(value);
        }
    }
}

}  // namespace

Extremes extremes(std::span<const double> values) {
    std::size_t count = 0;
    double min = std::numeric_limits<double>::infinity();
    double max = -min;
    for (const double value : values) {
        count += std::isnan(value) ? 0U : 1U;
        // A missing value is neither smaller nor larger.
        min = value < min ? value : min;
        max = value > max ? value : max;
    }
    return count == 0 ? Extremes{} : Extremes{count, min, max};
}

Description describe(std::span<const double> values) {
    const Extremes extent = extremes(values);
    Description result{
        .count = extent.count, .missing = values.size() - extent.count, .min = extent.min, .max = extent.max};
    if (result.count == 0) {
        return result;
    }
    const double largest_size = std::max(std::abs(result.min), std::abs(result.max));
    const double reach = result.max - result.min;
    const auto n = static_cast<double>(result.count);
    if (!std::isfinite(n * largest_size) || !std::isfinite(reach * reach)) {
        return result;
    }
    // Rounding can put the rough mean outside the values, above all where they are equal.
    const double deviation = reach + 0x1p-50 * largest_size;
    OrderFreeSum sum(largest_size, values.size());
    each_present(values, [&](double value) { sum.add(value); });
    const double rough_mean = sum.value() / n;
    OrderFreeSum deviations(deviation, values.size());
    OrderFreeSum squares(std::min(deviation * deviation, std::numeric_limits<double>::max()), values.size());
    each_present(values, [&](double value) {
        deviations.add(value - rough_mean);
        squares.add((value - rough_mean) * (value - rough_mean));
    });
    const double left_behind = deviations.value();
    result.mean = rough_mean + left_behind / n;
    if (result.count > 1) {
        result.sd = std::sqrt(std::max(0.0, squares.value() - left_behind * left_behind / n) / (n - 1.0));
    }
    return result;
}

}  // namespace jointrom
