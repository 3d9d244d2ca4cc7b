#include "calibration_checks.hpp"

#include "polynomial_fit.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

namespace jointrom {
namespace {

using Points = std::vector<CalibrationPoint>;

constexpr double smallest_reading_step_sd = 3.0;
constexpr double bend_significance = 0.05;

double span_of(const std::vector<double>& values) {
    const auto [low, high] = std::ranges::minmax(values);
    return high - low;
}

[[noreturn]] void refuse(std::string_view code, const std::string& text, std::string advice) {
    throw Failure(FailureKind::usage, code, text, std::move(advice));
}

void judge_straightness(Calibration& result, const CalibrationOptions& options, Findings& findings) {
    const CalibrationPoint* worst = &result.points.front();
    for (const CalibrationPoint& point : result.points) {
        if (std::abs(result.residual_deg(point)) > std::abs(result.residual_deg(*worst))) {
            worst = &point;
        }
    }
    result.nonlinearity_deg = std::abs(result.residual_deg(*worst));
    result.nonlinearity_pct =
        100.0 * result.nonlinearity_deg / span_of(column(result.points, &CalibrationPoint::known_deg));
    if (result.nonlinearity_deg > options.residual_limit_deg) {
        findings.emplace_back("calibration-nonlinear", "the point at " + shortest_text(worst->known_deg) +
                                                           " deg lies " + fixed_text(result.nonlinearity_deg, 1) +
                                                           " deg off the line");
    }
}

void judge_bend(Calibration& result, const CalibrationOptions& options, Findings& findings) {
    std::vector<double> readings = column(result.points, &CalibrationPoint::reading);
    const PolynomialFit curve = [&] {
        const std::vector<double> known_deg = column(result.points, &CalibrationPoint::known_deg);
        return fit_polynomial(readings, known_deg, 2);
    }();
    if (!(curve.residual_sd > 0.0)) {
        return;
    }
    const double t = std::abs(curve.coefficients[2] / curve.u(2));
    const boost::math::students_t distribution(curve.degrees_of_freedom);
    result.quadratic_p = 2.0 * boost::math::cdf(boost::math::complement(distribution, t));
    double bend_deg = 0.0;
    for (std::size_t i = 0; i < result.points.size(); ++i) {
        bend_deg = std::max(bend_deg, std::abs(result.residual_deg(result.points[i]) - curve.residuals[i]));
    }
    if (result.quadratic_p < bend_significance && bend_deg > options.bend_limit_deg) {
        findings.emplace_back("calibration-nonlinear",
                              "the points bend away from the line by up to " + fixed_text(bend_deg, 1) +
                                  " deg (quadratic term p = " + fixed_text(result.quadratic_p, 4) + ")");
    }
}

/// Rising or falling by the order in which the points were taken.
void infer_approach(Points& points) {
    for (std::size_t i = 0; i < points.size(); ++i) {
        double step = i > 0 ? points[i].known_deg - points[i - 1].known_deg : 0.0;
        if (step == 0.0 && i + 1 < points.size()) {
            step = points[i + 1].known_deg - points[i].known_deg;
        }
        points[i].approach = step > 0.0 ? Approach::rising : step < 0.0 ? Approach::falling : Approach::unknown;
    }
}

double hysteresis_reading(const Points& points) {
    struct Mean {
        double sum = 0.0, count = 0.0;
    };
    std::map<double, std::pair<Mean, Mean>> by_angle;  // rising, falling
    for (const CalibrationPoint& point : points) {
        auto& [rising, falling] = by_angle[point.known_deg];
        if (point.approach != Approach::unknown) {
            Mean& mean = point.approach == Approach::rising ? rising : falling;
            mean.sum += point.reading;
            mean.count += 1.0;
        }
    }
    double largest = std::numeric_limits<double>::quiet_NaN();
    for (const auto& [known_deg, means] : by_angle) {
        const auto& [rising, falling] = means;
        if (rising.count > 0.0 && falling.count > 0.0) {
            largest = std::fmax(largest, std::abs(falling.sum / falling.count - rising.sum / rising.count));
        }
    }
    return largest;
}

void judge_hysteresis(Calibration& result, const CalibrationOptions& options, Findings& findings) {
    Points points = result.points;
    if (std::ranges::all_of(points, [](const auto& point) { return point.approach == Approach::unknown; })) {
        infer_approach(points);
    }
    result.hysteresis_deg = std::abs(result.gain_deg_per_unit) * hysteresis_reading(points);
    if (result.hysteresis_deg > options.hysteresis_limit_deg) {
        findings.emplace_back("calibration-hysteresis", "rising and falling readings differ by up to " +
                                                            fixed_text(result.hysteresis_deg, 1) + " deg");
    }
}

std::size_t different_values(std::vector<double> values) {
    std::ranges::sort(values);
    return static_cast<std::size_t>(std::unique(values.begin(), values.end()) - values.begin());
}

}  // namespace

std::vector<double> column(const std::vector<CalibrationPoint>& points, double CalibrationPoint::*field) {
    std::vector<double> values;
    values.reserve(points.size());
    for (const CalibrationPoint& point : points) {
        values.push_back(point.*field);
    }
    return values;
}

double pooled_reading_sd(const std::vector<CalibrationPoint>& points) {
    double sum = 0.0;
    for (const CalibrationPoint& point : points) {
        sum += point.reading_sd * point.reading_sd;
    }
    return points.empty() ? 0.0 : std::sqrt(sum / static_cast<double>(points.size()));
}

void check_points(const std::vector<CalibrationPoint>& points, const CalibrationOptions& options) {
    if (points.empty()) {
        refuse("calibration-empty", "no known angle was given", "Give at least one known angle with its reading.");
    }
    for (const CalibrationPoint& point : points) {
        const bool complete = std::isfinite(point.known_deg) && std::isfinite(point.reading) &&
                              point.known_u_deg >= 0.0 && point.reading_sd >= 0.0 && point.effective_count >= 1.0;
        if (!complete) {
            refuse("calibration-point-incomplete",
                   "the point at " + shortest_text(point.known_deg) + " deg (" + point.source + ") is no usable number",
                   "Check that the readings of this point are not missing.");
        }
    }
    if (points.size() == 1) {
        if (!options.gain_deg_per_unit && options.unit != "deg") {
            refuse("calibration-gain-needed", "one known angle does not give the gain of a sensor in " + options.unit,
                   "Add a second known angle, or state the gain in degrees per " + options.unit + " with --gain.");
        }
        return;
    }
    if (span_of(column(points, &CalibrationPoint::known_deg)) == 0.0) {
        refuse("calibration-angles-equal", "all known angles are " + shortest_text(points[0].known_deg) + " deg",
               "Give known angles that differ, e.g. 0 and 90 deg.");
    }
    const double reading_span = span_of(column(points, &CalibrationPoint::reading));
    const double needed = smallest_reading_step_sd * pooled_reading_sd(points);
    if (reading_span == 0.0 || reading_span < needed) {
        refuse("calibration-readings-equal",
               "the readings at the known angles differ by " + shortest_text(reading_span) + " " + options.unit +
                   " only" + (needed > 0.0 ? ", less than three times their noise" : ""),
               "Check that the sensor is connected and that each reading belongs to its angle.");
    }
}

void judge_points(Calibration& calibration, const CalibrationOptions& options, Findings& findings) {
    judge_straightness(calibration, options, findings);
    judge_hysteresis(calibration, options, findings);
    if (calibration.points.size() > 3 && different_values(column(calibration.points, &CalibrationPoint::reading)) > 2) {
        judge_bend(calibration, options, findings);
    }
}

}  // namespace jointrom
