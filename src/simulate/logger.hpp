#pragma once

/// \file
/// When a simulated logger samples, and what it loses. Private.

#include <jointrom/simulate/random_numbers.hpp>
#include <jointrom/simulate/simulated_recording.hpp>

#include <vector>

namespace jointrom {

/// Sampling times from 0 to `end_s`, strictly rising.
[[nodiscard]] std::vector<double> sampling_times(const LoggerModel& logger, double end_s, RandomNumbers random);

/// Blank cells where the angle is sampled more slowly; gaps as missing rows or blank cells.
void lose_samples(SimulatedRecording& recording);

}  // namespace jointrom
