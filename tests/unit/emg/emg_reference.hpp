#pragma once

/// \file
/// Simulated muscle activity and what NumPy and SciPy make of it.

#include <jointrom/core/units.hpp>
#include <jointrom/signal/zero_phase.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace jointrom::test {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

inline const nlohmann::json& reference() {
    static const nlohmann::json values = reference_json("reference/emg/emg.json");
    return values;
}

/// 3 s at 2000 Hz: noise, a burst from 1.0 to 1.8 s.
inline std::vector<double> burst() {
    return reference_column("reference/emg/burst_2000hz.csv", "emg_uV");
}

inline std::vector<double> burst_without_offset() {
    std::vector<double> samples = burst();
    const double mean = describe(samples).mean;
    for (double& sample : samples) {
        sample -= mean;
    }
    return samples;
}

/// The cut-off of two passes of a second-order filter that is designed at `design_hz` (2000 Hz): the reference states
/// the latter, the program the former. Winter's correction turned round.
inline Hertz total_cutoff(double design_hz) {
    const double factor = std::pow(std::sqrt(2.0) - 1.0, 0.25);
    return Hertz(2000.0 / std::numbers::pi * std::atan(factor * std::tan(std::numbers::pi * design_hz / 2000.0)));
}

/// The envelope that the reference finds onsets in: not set to 0 where the filter swings below.
inline std::vector<double> smoothed(const std::vector<double>& samples, double design_hz) {
    return zero_phase(samples, butterworth_lowpass(2, Hertz(design_hz), Hertz(2000.0)),
                      {.rule = EdgeRule::odd_reflection, .pad_samples = 1000});
}

}  // namespace jointrom::test
