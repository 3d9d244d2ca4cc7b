#include <jointrom/signal/noise_level.hpp>

#include "median.hpp"

#include <jointrom/signal/finite_runs.hpp>

#include <cmath>

namespace jointrom {

double noise_sd(std::span<const double> samples) {
    constexpr std::size_t fewest_differences = 10;
    constexpr double gaussian_sd_per_median = 1.482602218505602;  // 1 / quantile of the normal distribution at 3/4
    const double sd_of_difference = std::sqrt(1.0 + 9.0 + 9.0 + 1.0);

    std::vector<double> sizes;
    sizes.reserve(samples.size());
    for (const SampleSpan run : finite_runs(samples)) {
        for (std::size_t i = run.first; i + 3 < run.last; ++i) {
            sizes.push_back(std::abs(samples[i] - 3.0 * samples[i + 1] + 3.0 * samples[i + 2] - samples[i + 3]));
        }
    }
    if (sizes.size() < fewest_differences) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    return gaussian_sd_per_median * median_of(sizes) / sd_of_difference;
}

}  // namespace jointrom
