#pragma once

/// \file
/// Whether calibration points can be fitted at all, and whether a straight line does them justice.

#include <jointrom/angle/calibration.hpp>

namespace jointrom {

/// One number of each point.
[[nodiscard]] std::vector<double> column(const std::vector<CalibrationPoint>& points, double CalibrationPoint::*field);

/// Root mean square of the points' reading_sd.
[[nodiscard]] double pooled_reading_sd(const std::vector<CalibrationPoint>& points);

/// \throws Failure as fit_calibration()
void check_points(const std::vector<CalibrationPoint>& points, const CalibrationOptions& options);

/// Fills non-linearity, hysteresis and quadratic_p of a line through three or more points, and says what is wrong.
void judge_points(Calibration& calibration, const CalibrationOptions& options, Findings& findings);

}  // namespace jointrom
