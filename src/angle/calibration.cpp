#include <jointrom/angle/calibration.hpp>

#include "calibration_checks.hpp"
#include "polynomial_fit.hpp"

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>
#include <utility>

namespace jointrom {
namespace {

double square(double x) {
    return x * x;
}

double reading_u(const CalibrationPoint& point) {
    return point.reading_sd / std::sqrt(point.effective_count);
}

/// Standard uncertainty of a point from what is stated about it, as an angle.
double stated_u_deg(const CalibrationPoint& point, double gain) {
    return std::hypot(point.known_u_deg, gain * reading_u(point));
}

void fit_offset(Calibration& result, const CalibrationOptions& options) {
    const CalibrationPoint& point = result.points.front();
    result.gain_deg_per_unit = options.gain_deg_per_unit.value_or(1.0);
    result.offset_deg = point.known_deg - result.gain_deg_per_unit * point.reading;
    result.u_offset_deg = stated_u_deg(point, result.gain_deg_per_unit);
}

void fit_two(Calibration& result) {
    const CalibrationPoint& a = result.points[0];
    const CalibrationPoint& b = result.points[1];
    const double step = b.reading - a.reading;
    const double gain = (b.known_deg - a.known_deg) / step;
    const double u_a = stated_u_deg(a, gain), u_b = stated_u_deg(b, gain);
    result.gain_deg_per_unit = gain;
    result.offset_deg = a.known_deg - gain * a.reading;
    result.u_gain_deg_per_unit = std::hypot(u_a, u_b) / std::abs(step);
    result.u_offset_deg = std::hypot(b.reading * u_a, a.reading * u_b) / std::abs(step);
    const double covariance = -(b.reading * square(u_a) + a.reading * square(u_b)) / square(step);
    const double product = result.u_gain_deg_per_unit * result.u_offset_deg;
    result.correlation = product > 0.0 ? covariance / product : 0.0;
    Budget gain_budget;
    for (const CalibrationPoint* point : {&a, &b}) {
        gain_budget.add({"known angle", point->known_u_deg});
        gain_budget.add({"reading", reading_u(*point), gain, std::max(1.0, point->effective_count - 1.0)});
    }
    result.degrees_of_freedom = gain_budget.effective_degrees_of_freedom();
}

/// What rests on nothing is not certain but unknown.
void forget_unstated_uncertainty(Calibration& result) {
    if (result.u_offset_deg == 0.0) {
        result.u_offset_deg = std::numeric_limits<double>::quiet_NaN();
        result.u_gain_deg_per_unit = std::numeric_limits<double>::quiet_NaN();
    }
}

void fit_many(Calibration& result) {
    const std::vector<double> readings = column(result.points, &CalibrationPoint::reading);
    const PolynomialFit line = fit_polynomial(readings, column(result.points, &CalibrationPoint::known_deg), 1);
    result.offset_deg = line.coefficients[0];
    result.gain_deg_per_unit = line.coefficients[1];
    result.residual_sd_deg = line.residual_sd;

    const auto n = static_cast<double>(readings.size());
    const double mean = std::accumulate(readings.begin(), readings.end(), 0.0) / n;
    double squares = 0.0, stated_variance = 0.0;
    for (const CalibrationPoint& point : result.points) {
        squares += square(point.reading - mean);
        stated_variance += square(stated_u_deg(point, result.gain_deg_per_unit)) / n;
    }
    const bool scatter_decides = square(line.residual_sd) >= stated_variance;
    const double u_deg = scatter_decides ? line.residual_sd : std::sqrt(stated_variance);
    result.u_gain_deg_per_unit = u_deg / std::sqrt(squares);
    result.u_offset_deg = u_deg * std::sqrt(1.0 / n + square(mean) / squares);
    result.correlation = -mean / std::sqrt(square(mean) + squares / n);
    result.degrees_of_freedom = scatter_decides ? line.degrees_of_freedom : std::numeric_limits<double>::infinity();
}

}  // namespace

std::string_view name_of(Approach approach) {
    switch (approach) {
    case Approach::rising:
        return "rising";
    case Approach::falling:
        return "falling";
    case Approach::unknown:
        break;
    }
    return "unknown";
}

Calibration fit_calibration(std::vector<CalibrationPoint> points, const CalibrationOptions& options,
                            Findings& findings) {
    check_points(points, options);
    Calibration result;
    result.unit = options.unit;
    result.joint = options.motion.joint;
    result.motion = options.motion.motion;
    result.side = options.side;
    result.points = std::move(points);
    const auto [low, high] = std::ranges::minmax(column(result.points, &CalibrationPoint::reading));
    result.reading_min = low;
    result.reading_max = high;
    if (result.points.size() == 1) {
        fit_offset(result, options);
        forget_unstated_uncertainty(result);
        findings.emplace_back("calibration-single-point",
                              "gain taken as " + shortest_text(result.gain_deg_per_unit) + " deg per " + result.unit);
    } else if (result.points.size() == 2) {
        fit_two(result);
        forget_unstated_uncertainty(result);
        findings.emplace_back("calibration-few-points",
                              std::string("two known angles give offset and gain with nothing to spare") +
                                  (std::isnan(result.u_offset_deg)
                                       ? "; how uncertain they are is unknown, as nothing is stated (--known-u-deg)"
                                       : ""));
    } else {
        fit_many(result);
        judge_points(result, options, findings);
    }
    for (const CalibrationPoint& point : result.points) {
        const double u_deg = std::abs(result.gain_deg_per_unit) * reading_u(point);
        if (u_deg > options.unsteady_limit_deg) {
            findings.emplace_back("calibration-reading-unsteady",
                                  "the mean reading at " + shortest_text(point.known_deg) + " deg is uncertain by " +
                                      fixed_text(u_deg, 1) + " deg (" + point.source + ")");
        }
    }
    if (options.motion.is_known()) {
        result.rises_with = result.gain_deg_per_unit > 0.0 ? options.motion.positive : options.motion.negative;
    }
    return result;
}

Uncertain angle_on_line(const Calibration& calibration, double reading) {
    const double u_slope_deg = reading * calibration.u_gain_deg_per_unit;
    const double variance = square(calibration.u_offset_deg) + square(u_slope_deg) +
                            2.0 * calibration.correlation * calibration.u_offset_deg * u_slope_deg;
    return {calibration.offset_deg + calibration.gain_deg_per_unit * reading, std::sqrt(std::max(variance, 0.0))};
}

Uncertain angle_of_reading(const Calibration& calibration, double reading) {
    const Uncertain mean = angle_on_line(calibration, reading);
    return {mean.value, std::hypot(mean.u, scatter_deg(calibration))};
}

LineCentre line_centre(const Calibration& calibration) {
    LineCentre centre;
    if (calibration.points.size() == 1) {
        centre.reading = calibration.points.front().reading;
    } else if (calibration.u_gain_deg_per_unit > 0.0) {
        centre.reading = -calibration.correlation * calibration.u_offset_deg / calibration.u_gain_deg_per_unit;
    }
    centre.angle_deg = angle_on_line(calibration, centre.reading);
    return centre;
}

Budget reading_budget(const Calibration& calibration, double reading) {
    const LineCentre centre = line_centre(calibration);
    const auto line = [&](const char* input, double u, double sensitivity, CommonTo common_to) {
        return BudgetLine{input, u, sensitivity, calibration.degrees_of_freedom, common_to, "calibration"};
    };
    Budget budget;
    budget.add(line("calibration line at its centre", centre.angle_deg.u, 1.0, CommonTo::calibration));
    budget.add(line("gain of the calibration", calibration.u_gain_deg_per_unit, reading - centre.reading,
                    CommonTo::calibration));
    budget.add(line("scatter about the line", scatter_deg(calibration), 1.0, CommonTo::this_value));
    return budget;
}

Uncertain reading_at_angle(const Calibration& calibration, double angle_deg, std::size_t repeats) {
    assert(repeats >= 1 && calibration.gain_deg_per_unit != 0.0);
    const double reading = (angle_deg - calibration.offset_deg) / calibration.gain_deg_per_unit;
    const double u_deg = std::hypot(angle_on_line(calibration, reading).u,
                                    scatter_deg(calibration) / std::sqrt(static_cast<double>(repeats)));
    return {reading, u_deg / std::abs(calibration.gain_deg_per_unit)};
}

double scatter_deg(const Calibration& calibration) {
    return std::isnan(calibration.residual_sd_deg)
               ? std::abs(calibration.gain_deg_per_unit) * pooled_reading_sd(calibration.points)
               : calibration.residual_sd_deg;
}

}  // namespace jointrom
