#include <jointrom/emg/maximal_contraction.hpp>

#include <jointrom/signal/moving_window.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

std::size_t samples_in(Seconds time, Hertz rate) {
    return static_cast<std::size_t>(std::max(1.0, std::round(time.value() * rate.value())));
}

/// The value of `measured` where `chosen` is highest; both must be there.
double at_highest(const std::vector<double>& chosen, const std::vector<double>& measured) {
    double highest = -std::numeric_limits<double>::infinity();
    double value = std::numeric_limits<double>::quiet_NaN();
    for (std::size_t i = 0; i < chosen.size(); ++i) {
        if (chosen[i] > highest && !std::isnan(measured[i])) {
            highest = chosen[i];
            value = measured[i];
        }
    }
    return value;
}

}  // namespace

double maximum_of(const EmgSignal& signal, Seconds window) {
    constexpr Seconds turn{0.01};
    constexpr double missing = std::numeric_limits<double>::quiet_NaN();
    const std::size_t turn_samples = samples_in(turn, signal.rate);
    const std::size_t window_samples = samples_in(window, signal.rate);
    std::array<std::vector<double>, 2> means;
    for (std::size_t half = 0; half < means.size(); ++half) {
        std::vector<double> magnitude(signal.samples.size(), missing);
        for (std::size_t i = 0; i < magnitude.size(); ++i) {
            if (i / turn_samples % 2 == half) {
                magnitude[i] = std::abs(signal.samples[i]);
            }
        }
        means[half] = moving_mean(magnitude, window_samples, WindowEnds::missing);
    }
    return 0.5 * (at_highest(means[0], means[1]) + at_highest(means[1], means[0]));
}

}  // namespace jointrom
