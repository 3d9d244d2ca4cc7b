#pragma once

/// \file
/// What is measured in every trial of a class.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/movement/repetitions.hpp>

namespace jointrom {

struct Measurements {
    MovementPhases phases;
    Repetitions repetitions;
    RangeOfMotion range;

    /// Those of the repetitions and of the range, each once.
    [[nodiscard]] Findings findings() const;
    /// The fastest movement of any phase, with its sign; missing when nothing moved.
    [[nodiscard]] DegreesPerSecond peak_velocity() const;
};

/// movement_phases(), repetitions() and range_of_motion() of a trace, as the settings have it.
/// \param with_smoothness whether repetitions get their smoothness, the most costly of their figures
[[nodiscard]] Measurements measure(const AngleTrace& trace, const Settings& settings, bool with_smoothness = true);

}  // namespace jointrom
