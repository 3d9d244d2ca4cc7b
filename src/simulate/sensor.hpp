#pragma once

/// \file
/// What a simulated sensor makes of the true angle. Private.

#include <jointrom/simulate/simulated_recording.hpp>

#include <vector>

namespace jointrom {

/// A reading for each of the recording's times. \pre movement, sensor and times are set
[[nodiscard]] std::vector<double> readings(const SimulatedRecording& recording);

}  // namespace jointrom
