#include <jointrom/stats/robust.hpp>

#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/quantile.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

// Rounded as published, which other programs do too.
constexpr double sd_per_mad = 1.4826;
constexpr double mad_per_sd = 0.6745;
constexpr double sd_per_mean_deviation = 1.253314;

std::vector<double> present(std::span<const double> values) {
    std::vector<double> result;
    result.reserve(values.size());
    std::ranges::copy_if(values, std::back_inserter(result), [](double value) { return !std::isnan(value); });
    return result;
}

double median_in_place(std::span<double> values) {
    if (values.empty()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const auto upper = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), upper, values.end());
    return values.size() % 2 == 1 ? *upper : (*std::max_element(values.begin(), upper) + *upper) / 2.0;
}

double median_of(std::vector<double> values) {
    return median_in_place(values);
}

std::vector<double> deviations(std::span<const double> values, double centre) {
    std::vector<double> result = present(values);
    for (double& value : result) {
        value = std::abs(value - centre);
    }
    return result;
}

}  // namespace

double median(std::span<const double> values) {
    return median_of(present(values));
}

double median_absolute_deviation(std::span<const double> values) {
    return median_of(deviations(values, median(values)));
}

double robust_sd(std::span<const double> values) {
    return sd_per_mad * median_absolute_deviation(values);
}

double modified_z_divisor(std::span<const double> values, double centre) {
    std::vector<double> sizes = deviations(values, centre);
    if (sizes.empty()) {
        return 0.0;
    }
    const double mad = median_in_place(sizes);
    return mad > 0.0 ? mad / mad_per_sd : sd_per_mean_deviation * describe(sizes).mean;
}

std::vector<double> modified_z_scores(std::span<const double> values) {
    const double centre = median(values);
    const double divisor = modified_z_divisor(values, centre);
    std::vector<double> scores(values.begin(), values.end());
    for (double& score : scores) {
        if (!std::isnan(score)) {
            score = score == centre ? 0.0 : (score - centre) / divisor;
        }
    }
    return scores;
}

std::vector<std::size_t> find_outliers(std::span<const double> values, double limit) {
    const std::vector<double> scores = modified_z_scores(values);
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < scores.size(); ++i) {
        if (std::abs(scores[i]) > limit) {
            places.push_back(i);
        }
    }
    return places;
}

Fences tukey_fences(std::span<const double> values, double factor) {
    const std::vector<double> quartiles = quantiles(values, std::array{0.25, 0.75});
    const double margin = factor * (quartiles[1] - quartiles[0]);
    return {quartiles[0] - margin, quartiles[1] + margin};
}

}  // namespace jointrom
