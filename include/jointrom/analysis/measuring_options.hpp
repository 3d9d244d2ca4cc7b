#pragma once

/// \file
/// What the settings mean for the modules that measure.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/still_postures.hpp>
#include <jointrom/movement/turning_points.hpp>

namespace jointrom {

[[nodiscard]] StillPostureOptions still_posture_options(const Settings& settings);
[[nodiscard]] TurningPointOptions turning_point_options(const Settings& settings);
[[nodiscard]] PhaseOptions phase_options(const Settings& settings);

}  // namespace jointrom
