#pragma once

/// \file
/// Simulated electromyograms. Private.

#include <jointrom/simulate/simulated_recording.hpp>

namespace jointrom {

/// The electromyogram of a muscle at each of the recording's times. \pre movement, logger and times are set
[[nodiscard]] SimulatedMuscle simulated_muscle(const SimulatedRecording& recording, const MuscleModel& model);

}  // namespace jointrom
