#include "column_content.hpp"

#include <jointrom/signal/order_statistic.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <numeric>
#include <set>
#include <vector>

namespace jointrom {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::vector<double> present(std::span<const double> values) {
    std::vector<double> result;
    result.reserve(values.size());
    std::ranges::copy_if(values, std::back_inserter(result), [](double value) { return !std::isnan(value); });
    return result;
}

/// The value below which `share` of the values lie; reorders them.
double quantile(std::vector<double>& values, double share) {
    return select_rank(values, static_cast<std::size_t>(share * static_cast<double>(values.size() - 1))).at;
}

}  // namespace

Steps steps_of(std::span<const double> values) {
    Steps steps;
    double last = none;
    for (const double value : values) {
        if (std::isnan(value)) {
            continue;
        }
        ++steps.values;
        steps.rises += value > last ? 1U : 0U;
        steps.falls += value < last ? 1U : 0U;
        steps.ones += value - last == 1.0 && value == std::floor(value) ? 1U : 0U;
        last = value;
    }
    return steps;
}

bool has_even_steps(std::span<const double> values) {
    std::vector<double> steps = present(values);
    std::adjacent_difference(steps.begin(), steps.end(), steps.begin());
    steps.erase(steps.begin());
    const double median = quantile(steps, 0.5);
    const auto even = std::ranges::count_if(steps, [&](double step) { return std::abs(step - median) < 0.3 * median; });
    return 5 * even >= 4 * std::ranges::ssize(steps);
}

Slowness slowness_of(std::span<const double> values) {
    double sum = 0.0;
    double count = 0.0;
    std::set<double> distinct;
    for (const double value : values) {
        if (!std::isnan(value)) {
            sum += value;
            count += 1.0;
            if (distinct.size() < 9) {
                distinct.insert(value);
            }
        }
    }
    const double mean = sum / count;
    double squares = 0.0;
    double step_squares = 0.0;
    double last = none;
    for (const double value : values) {
        if (!std::isnan(value)) {
            squares += (value - mean) * (value - mean);
            step_squares += std::isnan(last) ? 0.0 : (value - last) * (value - last);
            last = value;
        }
    }
    return {step_squares / squares, std::abs(mean) / std::sqrt(squares / count), distinct.size()};
}

double middle_range(std::span<const double> values) {
    std::vector<double> sorted = present(values);
    return sorted.empty() ? 0.0 : quantile(sorted, 0.95) - quantile(sorted, 0.05);
}

}  // namespace jointrom
