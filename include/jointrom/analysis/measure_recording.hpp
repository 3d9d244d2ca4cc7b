#pragma once

/// \file
/// Everything that can be measured in one recording, at once.

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/analysis/settings.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/movement/still_postures.hpp>
#include <jointrom/movement/turning_points.hpp>

#include <iosfwd>
#include <optional>
#include <vector>

namespace jointrom {

struct MeasuredRecording {
    Trial trial;
    MovementPhases phases = {};
    Repetitions repetitions = {};
    std::vector<StillPosture> postures = {};
    std::vector<TurningPoint> peaks = {};
    RangeOfMotion range = {};
    std::optional<TrialActivity> muscles = {};  ///< none without channels of muscle activity, or when none can be used
    Findings findings = {};                     ///< of all of these, each once
};

/// The movement of a trial, and its muscles where they were recorded.
///
/// Channels of muscle activity that cannot be used leave the movement as it is: finding activity-unavailable.
/// \param standard_input for a maximal contraction that is named "-"
/// \throws Failure as measure_activity() for a setting that cannot be met
[[nodiscard]] MeasuredRecording measure_recording(Trial trial, const Settings& settings, std::istream& standard_input);

}  // namespace jointrom
