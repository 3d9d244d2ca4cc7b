#include <jointrom/report/column_catalogue.hpp>

#include <array>

namespace jointrom {
namespace {

/// Sorted by key (a test checks it).
constexpr auto catalogue = std::to_array<ColumnKind>({
    {"acceleration_deg_s2", 1, "acceleration", "Angular acceleration, positive in the joint's positive direction."},
    {"angle_deg", 2, "angle", "Joint angle: 0 in the neutral posture, positive in the joint's positive direction."},
    {"approach", 0, "approach", "Whether the known angle was approached rising or falling."},
    {"arc_deg", 2, "arc", "Angle travelled between the two ends of a movement."},
    {"at_edge", 0, "at edge", "Whether the value lies at the first or last sample, so that the true one may be further out."},
    {"at_s", 3, "at", "Time of the value on the recording's clock."},
    {"column", 0, "column", "Number of the column in the file, counted from 1."},
    {"count", 0, "n", "How many values the figures are made from."},
    {"degrees_of_freedom", 1, "dof", "Degrees of freedom of the uncertainty; nothing when it is not from repeats."},
    {"deviation_deg", 2, "deviation", "Measured minus expected angle."},
    {"direction", 0, "direction", "Direction of the movement, named for the joint."},
    {"drift_deg_s", 3, "drift", "Slope of a straight line through the posture."},
    {"duration_s", 3, "duration", "From start to end."},
    {"end_deg", 2, "end angle", "Joint angle at the end."},
    {"end_s", 3, "end", "Time of the end on the recording's clock."},
    {"error_deg", 3, "error", "Calibrated minus known angle."},
    {"excursion_deg", 2, "excursion", "Angle at the end minus angle at the start: negative where the joint goes back."},
    {"expected_deg", 1, "expected", "Angle that was asked for."},
    {"figure_unit", 0, "unit", "Unit of the value in the row."},
    {"gaps", 0, "gaps", "Stretches without samples."},
    {"held_deg", 2, "held", "Mean of the outermost posture that was held still on that side."},
    {"held_from_s", 3, "held from", "Start of the time that the angle stays close to the turning point."},
    {"held_to_s", 3, "to", "End of the time that the angle stays close to the turning point."},
    {"holding_s", 3, "holding", "Time held still at the top."},
    {"jitter_ms", 3, "jitter (ms)", "Standard deviation of the time between samples, in milliseconds."},
    {"kind", 0, "kind", "Which kind of entry the row is."},
    {"known_deg", 3, "known angle", "Reference angle of a calibration or control point."},
    {"level_deg", 2, "mean angle", "Mean joint angle over the phase."},
    {"log_jerk", 3, "log jerk", "Log dimensionless jerk of the raising movement; nearer to 0 is smoother."},
    {"lowering_s", 3, "lowering", "Time from the top back to the end."},
    {"maximum", 4, "maximum", "Largest reading, in the channel's unit."},
    {"mean_deg", 2, "mean", "Mean over the samples or repetitions."},
    {"mean_velocity_deg_s", 1, "mean velocity", "Mean angular velocity, positive in the joint's positive direction."},
    {"minimum", 4, "minimum", "Smallest reading, in the channel's unit."},
    {"missing", 0, "missing", "Samples that are blank or marked as missing."},
    {"name", 0, "name", "Name of the channel, its heading without the unit."},
    {"noise", 4, "noise", "Standard deviation of the noise of one sample, in the channel's unit."},
    {"peak_deg", 2, "top", "Joint angle at the top of the repetition."},
    {"peak_s", 3, "top at", "Time of the top on the recording's clock."},
    {"peak_velocity_deg_s", 1, "peak velocity", "Largest angular speed, with its sign."},
    {"percent_pct", 0, "of repetition", "Share of the repetition's duration that has passed."},
    {"phase", 0, "phase", "rest, raising, holding or lowering."},
    {"posture", 0, "no.", "Number of the posture, counted from 1."},
    {"prominence_deg", 2, "prominence", "Height above the higher of the two lowest points between it and a higher one."},
    {"quantity", 0, "quantity", "What the row gives."},
    {"raising_s", 3, "raising", "Time from the start to the top."},
    {"raising_velocity_deg_s", 1, "raising velocity", "Largest angular speed on the way to the top."},
    {"rate_hz", 3, "rate", "Samples per second."},
    {"reading", 5, "reading", "What the sensor showed, in its own unit."},
    {"repeated_pct", 1, "repeated", "Samples that equal the one before."},
    {"repetition", 0, "no.", "Number of the repetition, counted from 1."},
    {"residual_deg", 3, "residual", "Known angle minus the angle that the calibration gives."},
    {"role", 0, "role", "What the channel is taken for: angle, emg or other."},
    {"saturated_pct", 1, "saturated", "Samples stuck at the end of the sensor's range."},
    {"sd_deg", 2, "SD", "Standard deviation, with n - 1."},
    {"source", 0, "source", "Where the value comes from."},
    {"spectral_arc", 3, "spectral arc", "Spectral arc length of the raising movement's speed; nearer to 0 is smoother."},
    {"start_deg", 2, "start angle", "Joint angle at the start."},
    {"start_s", 3, "start", "Time of the start on the recording's clock."},
    {"time_s", 6, "time", "Time on the recording's clock."},
    {"tolerance_deg", 2, "tolerance", "Largest error that is allowed."},
    {"unit", 0, "unit", "Unit of the channel's samples, as understood."},
    {"value", 6, "value", "The figure, in the unit that the row names."},
    {"velocity_deg_s", 2, "velocity", "Angular velocity, positive in the joint's positive direction."},
    {"verdict", 0, "verdict", "inside, outside, or undecided: the uncertainty is too large to tell."},
    {"wraps", 0, "wraps", "Jumps by a full turn."},
});

}  // namespace

std::span<const ColumnKind> column_catalogue() { return catalogue; }

}  // namespace jointrom
