#include <jointrom/stats/descriptive.hpp>

#include "stats/order_free_sum.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

/// Sum of `term(value)` over the values that are not missing.
template <typename Term>
double sum_of(std::span<const double> values, double largest_term, Term term) {
    OrderFreeSum sum(largest_term, values.size());
    for (const double value : values) {
        if (!std::isnan(value)) {
            sum.add(term(value));
        }
    }
    return sum.value();
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
    if (!std::isfinite(largest_size) || !std::isfinite(reach * reach)) {
        return result;
    }
    const auto n = static_cast<double>(result.count);
    const double rough_mean = sum_of(values, largest_size, [](double value) { return value; }) / n;
    // Rounding can put the rough mean outside the values, above all where they are equal.
    const double deviation = reach + 0x1p-50 * largest_size;
    const double left_behind = sum_of(values, deviation, [=](double value) { return value - rough_mean; });
    result.mean = rough_mean + left_behind / n;
    if (result.count > 1) {
        const double squares = sum_of(values, deviation * deviation,
                                      [=](double value) { return (value - rough_mean) * (value - rough_mean); });
        result.sd = std::sqrt(std::max(0.0, squares - left_behind * left_behind / n) / (n - 1.0));
    }
    return result;
}

}  // namespace jointrom
