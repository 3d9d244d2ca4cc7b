#include <jointrom/emg/frequencies.hpp>

#include "emg/longest_run.hpp"

#include <jointrom/core/uncertainty.hpp>
#include <jointrom/signal/spectrum.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {

Frequencies emg_frequencies(std::span<const double> samples, Hertz rate) {
    constexpr double segment_s = 0.256;
    constexpr double shortest_s = 0.25;
    const std::span<const double> run = longest_run(samples);
    if (static_cast<double>(run.size()) < shortest_s * rate.value()) {
        return {};
    }
    const Spectrum density =
        welch(run, rate, {.segment = static_cast<std::size_t>(std::round(segment_s * rate.value()))});
    return {median_frequency(density), mean_frequency(density)};
}

bool Trend::is_clear() const {
    return count >= 3 && std::abs(slope_per_s) > student_factor(0.95, static_cast<double>(count - 2)) * slope_u_per_s;
}

Trend trend_of(std::span<const double> time_s, std::span<const double> values) {
    double count = 0.0;
    double mean_t = 0.0;
    double mean_y = 0.0;
    double first = std::numeric_limits<double>::infinity();
    double last = -first;
    const auto each = [&](const auto& use) {
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (!std::isnan(time_s[i] + values[i])) {
                use(time_s[i], values[i]);
            }
        }
    };
    each([&](double t, double y) {
        count += 1.0;
        mean_t += t;
        mean_y += y;
        first = std::min(first, t);
        last = std::max(last, t);
    });
    Trend trend{.count = static_cast<std::size_t>(count)};
    if (count < 2.0 || first == last) {
        return trend;
    }
    mean_t /= count;
    mean_y /= count;
    double tt = 0.0;
    double ty = 0.0;
    double yy = 0.0;
    each([&](double t, double y) {
        tt += (t - mean_t) * (t - mean_t);
        ty += (t - mean_t) * (y - mean_y);
        yy += (y - mean_y) * (y - mean_y);
    });
    trend.slope_per_s = ty / tt;
    trend.intercept = mean_y - trend.slope_per_s * mean_t;
    const double at_first = trend.intercept + trend.slope_per_s * first;
    trend.first_to_last_pct = at_first > 0.0 ? 100.0 * trend.slope_per_s * (last - first) / at_first
                                             : std::numeric_limits<double>::quiet_NaN();
    trend.r_squared = yy > 0.0 ? ty * ty / (tt * yy) : 1.0;
    if (count > 2.0) {
        trend.slope_u_per_s = std::sqrt(std::max(yy - ty * ty / tt, 0.0) / (count - 2.0) / tt);
    }
    return trend;
}

}  // namespace jointrom
