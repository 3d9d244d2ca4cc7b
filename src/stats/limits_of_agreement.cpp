#include <jointrom/stats/limits_of_agreement.hpp>

#include "stats/distributions.hpp"
#include "stats/straight_line.hpp"

#include <jointrom/stats/descriptive.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <vector>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

struct Pairs {
    std::vector<double> differences;
    std::vector<double> means;
};

Pairs complete_pairs(std::span<const double> first, std::span<const double> second) {
    Pairs pairs;
    for (std::size_t i = 0; i < first.size(); ++i) {
        const double difference = second[i] - first[i];
        if (!std::isnan(difference)) {
            pairs.differences.push_back(difference);
            pairs.means.push_back((first[i] + second[i]) / 2.0);
        }
    }
    return pairs;
}

MagnitudeTrend spread_of(const Pairs& pairs, const MagnitudeTrend& trend, double confidence) {
    std::vector<double> sizes = pairs.differences;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        sizes[i] = std::abs(sizes[i] - trend.intercept - trend.slope * pairs.means[i]);
    }
    return straight_line(pairs.means, sizes, confidence);
}

ConfidenceInterval about(double value, double half) {
    return {value - half, value + half};
}

void apply_exp(double& value) {
    value = std::exp(value);
}

void apply_exp(ConfidenceInterval& interval) {
    apply_exp(interval.low);
    apply_exp(interval.high);
}

std::vector<double> logarithms(std::span<const double> values) {
    std::vector<double> result(values.begin(), values.end());
    std::ranges::transform(result, result.begin(), [](double value) { return std::log(value); });
    return result;
}

bool all_positive(std::span<const double> values) {
    return std::ranges::none_of(values, [](double value) { return value <= 0.0; });
}

}  // namespace

LimitsOfAgreement limits_of_agreement(std::span<const double> first, std::span<const double> second,
                                      const AgreementOptions& options) {
    assert(first.size() == second.size());
    const Pairs pairs = complete_pairs(first, second);
    const Description differences = describe(pairs.differences);
    const MagnitudeTrend none{missing, {}, missing, missing};
    LimitsOfAgreement result{.count = differences.count,
                             .left_out = first.size() - differences.count,
                             .bias = differences.mean,
                             .bias_ci = {},
                             .sd = differences.sd,
                             .lower = differences.mean - options.factor * differences.sd,
                             .lower_ci = {},
                             .upper = differences.mean + options.factor * differences.sd,
                             .upper_ci = {},
                             .trend = none,
                             .spread = none};
    if (differences.count < 3) {
        return result;
    }
    const auto n = static_cast<double>(differences.count);
    const double t = student_quantile(0.5 + options.confidence / 2.0, n - 1.0);
    const double share =
        options.rounded_standard_error ? 3.0 / n : 1.0 / n + options.factor * options.factor / (2.0 * (n - 1.0));
    const double limit_half = t * differences.sd * std::sqrt(share);
    result.bias_ci = about(result.bias, t * differences.sd / std::sqrt(n));
    result.lower_ci = about(result.lower, limit_half);
    result.upper_ci = about(result.upper, limit_half);
    result.trend = straight_line(pairs.means, pairs.differences, options.confidence);
    if (!std::isnan(result.trend.slope)) {
        result.spread = spread_of(pairs, result.trend, options.confidence);
    }
    return result;
}

LimitsOfAgreement ratio_limits_of_agreement(std::span<const double> first, std::span<const double> second,
                                            const AgreementOptions& options) {
    if (!all_positive(first) || !all_positive(second)) {
        const std::vector<double> nothing(first.size(), missing);
        return limits_of_agreement(nothing, nothing, options);
    }
    LimitsOfAgreement result = limits_of_agreement(logarithms(first), logarithms(second), options);
    for (double* const value : {&result.bias, &result.lower, &result.upper}) {
        apply_exp(*value);
    }
    for (ConfidenceInterval* const interval : {&result.bias_ci, &result.lower_ci, &result.upper_ci}) {
        apply_exp(*interval);
    }
    return result;
}

}  // namespace jointrom
