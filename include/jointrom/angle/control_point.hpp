#pragma once

/// \file
/// Control points: known angles kept out of the calibration, by which it is judged.

#include <jointrom/angle/calibration.hpp>
#include <jointrom/core/conformity.hpp>

namespace jointrom {

struct ControlResult {
    CalibrationPoint point;
    Uncertain error_deg;    ///< calibrated angle minus known angle, with its standard uncertainty
    Budget budget;          ///< of the error
    double expanded_u_deg;  ///< of the error, at the level asked for; the guard band
    double tolerance_deg;   ///< the error may lie within +-this
    Conformity verdict;
};

/// Whether the calibration gives a known angle back within a tolerance.
///
/// Method: the error's uncertainty is made of the calibration line's, the scatter about it (or the control reading's
/// own, where larger) and the known angle's. Inside when |error| <= tolerance - U, outside when |error| > tolerance +
/// U, else undecided. \param tolerance_deg largest error that is allowed, > 0
/// \param findings      control-point-missed or control-point-undecided
/// \throws Failure usage "control-point-incomplete" when the known angle or its reading is
/// missing,
///   "tolerance-not-positive"
/// \par Reference JCGM 106:2012 (guard band); ISO 14253-1.
[[nodiscard]] ControlResult judge_control_point(const Calibration& calibration, const CalibrationPoint& point,
                                                double tolerance_deg, Findings& findings, double level = 0.95);

}  // namespace jointrom
