#pragma once

/// \file
/// Stretches in which the joint moves one way. Private to movement/.

#include <jointrom/angle/angle_trace.hpp>

#include <vector>

namespace jointrom {

struct MovingRun {
    bool is_raising;
    SampleSpan span;
};

/// What counts as moving. The speeds are thresholds.
struct MovingRule {
    double raising_deg_s;
    double lowering_deg_s;
    double least_speed_deg_s;  ///< below this nothing is moving, not even among slow movements
    double speed_share;
    double min_excursion_deg;
    std::size_t min_hold_samples;
    std::size_t min_movement_samples;
};

/// The runs in one piece, in order, not overlapping, as described at movement_phases().
[[nodiscard]] std::vector<MovingRun> moving_runs(const AngleTrace& trace, SampleSpan piece, const MovingRule& rule);

}  // namespace jointrom
