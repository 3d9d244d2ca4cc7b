#include <jointrom/angle/control_point.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

void check(const CalibrationPoint& point, double tolerance_deg) {
    if (!std::isfinite(point.known_deg) || !std::isfinite(point.reading)) {
        throw Failure(FailureKind::usage, "control-point-incomplete",
                      "the control point at " + shortest_text(point.known_deg) + " deg has no reading",
                      "Check that the reading (" + point.source + ") is not missing.");
    }
    if (!(tolerance_deg > 0.0)) {
        throw Failure(FailureKind::usage, "tolerance-not-positive",
                      "the tolerance is " + shortest_text(tolerance_deg) + " deg", "Give a tolerance above 0 deg.");
    }
}

Budget error_budget(const Calibration& calibration, const CalibrationPoint& point) {
    const double own_u_deg =
        std::abs(calibration.gain_deg_per_unit) * point.reading_sd / std::sqrt(point.effective_count);
    Budget budget;
    // The scatter about the line holds the noise of a reading already, unless this one is noisier.
    const bool scatter_holds_it = calibration.residual_sd_deg >= own_u_deg;
    const Budget of_a_reading = reading_budget(calibration, point.reading);
    for (const BudgetLine& line : of_a_reading.lines()) {
        if (scatter_holds_it || line.common_to == CommonTo::calibration) {
            budget.add(line);
        }
    }
    if (!scatter_holds_it) {
        budget.add({"control reading", own_u_deg, 1.0, std::max(1.0, point.effective_count - 1.0)});
    }
    if (point.known_u_deg > 0.0) {
        budget.add({"known angle", point.known_u_deg});
    }
    return budget;
}

}  // namespace

ControlResult judge_control_point(const Calibration& calibration, const CalibrationPoint& point, double tolerance_deg,
                                  Findings& findings, double level) {
    check(point, tolerance_deg);
    const Budget budget = error_budget(calibration, point);
    const double error_deg = -calibration.residual_deg(point);
    const double expanded_u_deg = budget.expanded_uncertainty(level);
    const Conformity verdict = conformity(error_deg, {-tolerance_deg, tolerance_deg}, expanded_u_deg);
    if (verdict != Conformity::inside) {
        const bool missed = verdict == Conformity::outside;
        findings.emplace_back(missed ? "control-point-missed" : "control-point-undecided",
                              "at " + shortest_text(point.known_deg) + " deg the error is " + fixed_text(error_deg, 1) +
                                  " deg (U " +
                                  (std::isnan(expanded_u_deg) ? "unknown" : fixed_text(expanded_u_deg, 1) + " deg") +
                                  "), tolerance " + shortest_text(tolerance_deg) + " deg");
    }
    return {point, {error_deg, budget.standard_uncertainty()}, budget, expanded_u_deg, tolerance_deg, verdict};
}

}  // namespace jointrom
