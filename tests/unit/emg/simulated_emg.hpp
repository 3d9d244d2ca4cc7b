#pragma once

/// \file
/// Electromyograms with a known truth.

#include <support/made_trace.hpp>

#include <cmath>
#include <numbers>
#include <vector>

namespace jointrom::test {

/// Noise whose median frequency lies near 85 Hz at 1000 Hz: differences of white noise through two equal poles at 0.78.
/// It has the SD `burst_mv` within each second's first half, `rest_mv` else. Below 1000 Hz it is what a logger without
/// a filter takes of it; the rate must divide 1000.
inline std::vector<double> simulated_emg(double seconds, double rate_hz, double burst_mv, double rest_mv,
                                         std::uint64_t seed = 1) {
    if (rate_hz < 1000.0) {
        const auto fast = simulated_emg(seconds, 1000.0, burst_mv, rest_mv, seed);
        std::vector<double> slow;
        for (std::size_t i = 0; i < fast.size(); i += static_cast<std::size_t>(1000.0 / rate_hz)) {
            slow.push_back(fast[i]);
        }
        return slow;
    }
    Noise noise(seed);
    const double pole = 0.78;
    const double scale = std::sqrt(2.0 * std::pow((1.0 - pole) / (1.0 + pole), 3.0));
    double first = 0.0;
    double second = 0.0;
    std::vector<double> samples(static_cast<std::size_t>(seconds * rate_hz));
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double before = second;
        first = pole * first + (1.0 - pole) * noise();
        second = pole * second + (1.0 - pole) * first;
        const double time_s = static_cast<double>(i) / rate_hz;
        const bool is_on = time_s - std::floor(time_s) < 0.5;
        samples[i] = (is_on ? burst_mv : rest_mv) * (second - before) / scale;
    }
    return samples;
}

inline std::vector<double> plus_sine(std::vector<double> samples, double rate_hz, double frequency_hz,
                                     double amplitude) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] += amplitude * std::sin(2.0 * std::numbers::pi * frequency_hz * static_cast<double>(i) / rate_hz);
    }
    return samples;
}

}  // namespace jointrom::test
