#pragma once

/// \file
/// The phases of a recording: rest, raising, holding, lowering.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/movement/movement_scale.hpp>

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// Raising is a rising angle, whichever way that is in space: toward the positive direction of the motion.
enum class PhaseKind {
    rest,     ///< still where the movement starts from
    raising,  ///< toward the positive direction, e.g. flexion
    holding,  ///< still away from rest: at the top, or on the way
    lowering  ///< toward the negative direction, e.g. extension
};

[[nodiscard]] std::string_view name_of(PhaseKind kind);

/// "toward flexion" for raising the elbow; the plain name when the joint is unknown, and for rest and holding.
[[nodiscard]] std::string name_of(PhaseKind kind, const JointMotion& motion);

struct Phase {
    PhaseKind kind = PhaseKind::rest;
    SampleSpan span;
    Seconds start;
    Seconds end;  ///< where the next phase starts
    Degrees start_angle;
    Degrees end_angle;               ///< at the first sample of the next phase, so excursions add up
    Degrees excursion;               ///< end_angle - start_angle: negative in lowering
    DegreesPerSecond peak_velocity;  ///< the largest in size in the direction of the phase; rest, holding: in size
    DegreesPerSecond mean_velocity;  ///< excursion over duration

    [[nodiscard]] Seconds duration() const noexcept { return end - start; }
};

struct PhaseOptions {
    double speed_share = 0.05;          ///< of the peak speed in the same direction; 5 to 10 % is common practice
    DegreesPerSecond min_speed{1.0};    ///< slower is never a movement; design choice
    Seconds min_hold{0.2};              ///< a shorter stop is no hold: less than a simple reaction time (from memory)
    Seconds min_movement{0.1};          ///< a shorter movement is none; design choice
    double min_excursion_share = 0.05;  ///< of the typical arc: a smaller movement is none; design choice
};

struct MovementPhases {
    std::vector<Phase> phases;            ///< in order; the phases of a piece cover it without gap or overlap
    DegreesPerSecond raising_threshold;   ///< speed above which the joint counts as raising
    DegreesPerSecond lowering_threshold;  ///< and as lowering
    Degrees min_excursion;
    MovementScale scale;  ///< of the trace
};

/// What the joint did when.
///
/// Method: the joint moves where its speed is above `speed_share` of the peak speed in that direction (at most twice
/// the median peak of the large movements, so that one jerk does not set it), and above twice the SD of the noise in
/// the velocity. A run counts if it gets to twice the threshold somewhere. Stops shorter than `min_hold` on the way are
/// closed; runs shorter than `min_movement` or smaller than `min_excursion_share` are dropped; a stop shorter than
/// `min_hold` between raising and lowering is divided at the turning point. Where more than twice the least excursion
/// is left in a stretch without movement, its own peak speed sets the threshold, which finds slow movements among fast.
/// Still is rest within a tenth of the way from the valley to the top, and between two repetitions or at an end of the
/// recording up to half of it; else it is holding. Rest is where the recording starts and ends; when that is halfway,
/// on the side of the neutral zero.
///
/// A threshold shortens movements: 5 % of the peak speed measures 88.1 % of the duration of a minimum-jerk movement,
/// 10 % 82.7 %, and leaves out 0.2 % and 0.6 % of the excursion at either end (closed form). Compare durations only
/// under one rule.
///
/// Missing samples: the pieces between gaps are covered one by one; gaps belong to no phase.
///
/// \par Accuracy on minimum-jerk repetitions equal to the plain threshold rule, computed with NumPy 1.24.2
/// \par Complexity O(n)
[[nodiscard]] MovementPhases movement_phases(const AngleTrace& trace, const PhaseOptions& options = {});

/// Time spent in phases of `kind` within `span`.
[[nodiscard]] Seconds time_in(std::span<const Phase> phases, PhaseKind kind, SampleSpan span, Hertz rate);

}  // namespace jointrom
