#pragma once

/// \file
/// How large and how noisy the movement in a trace is: what every threshold of movement/ is measured against.

#include <jointrom/angle/angle_trace.hpp>

namespace jointrom {

/// Noise that is left in a trace, as standard deviations of one sample.
struct TraceNoise {
    double angle_deg = 0.0;
    double velocity_deg_s = 0.0;
    double acceleration_deg_s2 = 0.0;
    double doubled_cutoff_deg = 0.0;  ///< of the change in the angle when the low-pass cut-off is doubled
};

/// Method: TraceUncertainty::noise, taken as white, through the trace's own low-pass. In a trace that was not filtered
/// and whose noise is not stated, it is estimated from third differences, at their lower quartile, so that movement in
/// up to three quarters of the samples does not count as noise.
[[nodiscard]] TraceNoise trace_noise(const AngleTrace& trace);

/// Which way the joint moves when it leaves rest.
enum class AwayFromRest { toward_positive, toward_negative };

/// The angles exceeded for 0.1 s (at least three samples) in all, and not reached for as long.
struct RobustLevels {
    double low_deg = 0.0;
    double high_deg = 0.0;
};

[[nodiscard]] RobustLevels robust_levels(const AngleTrace& trace);

struct MovementScale {
    RobustLevels levels;
    double robust_arc_deg = 0.0;   ///< between the levels
    double typical_arc_deg = 0.0;  ///< the leg between turning points in which half of the way is made, the long legs
                                   ///< first; at least half of robust_arc_deg, so that fidgeting does not set it
    AwayFromRest away = AwayFromRest::toward_positive;
    TraceNoise noise;

    [[nodiscard]] double sign() const noexcept { return away == AwayFromRest::toward_positive ? 1.0 : -1.0; }
    /// Less than this is never taken for a movement: the whole spread of noise, or a degree.
    [[nodiscard]] double least_arc_deg() const noexcept;
    [[nodiscard]] bool moves() const noexcept { return robust_arc_deg >= least_arc_deg(); }
    /// Legs between turning points at least this long are large movements; 0.3 to 0.5 of the arc is common practice.
    [[nodiscard]] double leg_threshold_deg(double share = 0.4) const noexcept;
};

[[nodiscard]] MovementScale movement_scale(const AngleTrace& trace);

}  // namespace jointrom
