#pragma once

/// \file
/// What movement/ measured, as tables of the column catalogue.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/movement/ensemble_curve.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/movement/still_postures.hpp>
#include <jointrom/movement/turning_points.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>
#include <string>

namespace jointrom {

/// A row for each posture, numbered.
[[nodiscard]] ResultTable posture_table(std::span<const StillPosture> postures);

/// A row for each expected angle, with the posture that fits it.
[[nodiscard]] ResultTable expected_table(std::span<const StillPosture> postures, const ExpectedMatches& matches);

/// A row for each turning point; the uncertainty of the angle is that of the sensor and of its noise.
[[nodiscard]] ResultTable turning_point_table(const AngleTrace& trace, std::span<const TurningPoint> points);

/// A row for each phase.
[[nodiscard]] ResultTable phase_table(const AngleTrace& trace, std::span<const Phase> phases,
                                      std::span<const Repetition> repetitions);

/// A row for each repetition.
[[nodiscard]] ResultTable repetition_table(const AngleTrace& trace, const Repetitions& repetitions);

/// Mean and spread of the repetitions' figures, a row each.
[[nodiscard]] ResultTable repetition_summary_table(const Repetitions& repetitions);

/// Rows for the positive extreme, the negative extreme and the arc.
[[nodiscard]] ResultTable range_table(const AngleTrace& trace, const RangeOfMotion& range);

/// "Neutral zero notation: extension-flexion 5-0-145; extension to 5 deg beyond neutral, flexion to 145 deg."
[[nodiscard]] std::string neutral_zero_sentence(const JointMotion& motion, const RangeOfMotion& range);

/// The mean curve of the repetitions, a row for each percent.
[[nodiscard]] ResultTable curve_table(const EnsembleCurve& curve);

/// How alike the curves are, a row for each figure.
[[nodiscard]] ResultTable curve_figures_table(const EnsembleCurve& curve);

}  // namespace jointrom
