#include <jointrom/signal/noise_level.hpp>

#include <jointrom/signal/order_statistic.hpp>

#include <cmath>

namespace jointrom {

double noise_sd(std::span<const double> samples) {
    constexpr std::size_t reach = 3;  // samples behind the first one that a difference goes
    constexpr std::size_t fewest_differences = 10;
    constexpr double gaussian_sd_per_median = 1.482602218505602;  // 1 / quantile of the normal distribution at 3/4
    const double sd_of_difference = std::sqrt(1.0 + 9.0 + 9.0 + 1.0);

    const auto size_of_difference = [samples](std::size_t i) {
        return std::abs(samples[i] - 3.0 * samples[i + 1] + 3.0 * samples[i + 2] - samples[i + 3]);
    };
    std::size_t differences = 0;
    const auto middle = [&differences](std::size_t count) {
        differences = count;
        return count / 2;
    };
    const std::size_t places = samples.size() > reach ? samples.size() - reach : 0;
    const RankedValue value = value_of_rank(places, size_of_difference, middle);
    if (differences < fewest_differences) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const double median = differences % 2 == 1 ? value.at : 0.5 * (value.before + value.at);
    return gaussian_sd_per_median * median / sd_of_difference;
}

}  // namespace jointrom
