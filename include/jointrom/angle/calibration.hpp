#pragma once

/// \file
/// From known angles to the straight line that turns a sensor's reading into degrees, with its uncertainty.
///
/// Words as in JCGM 200:2012 (VIM): calibration finds the relation between reading and known angle; nothing in the
/// sensor is changed by it.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/core/uncertainty.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// From which side a known angle was approached.
enum class Approach { unknown, rising, falling };

[[nodiscard]] std::string_view name_of(Approach approach);

/// One known angle and what the sensor read at it.
struct CalibrationPoint {
    double known_deg = std::numeric_limits<double>::quiet_NaN();
    double known_u_deg = 0.0;  ///< standard uncertainty of the known angle; 0 when not stated
    double reading = std::numeric_limits<double>::quiet_NaN();  ///< mean, in the sensor's unit
    double reading_sd = 0.0;       ///< SD of one sample, in the sensor's unit; 0 when not known
    double effective_count = 1.0;  ///< number of independent samples behind the mean
    Approach approach = Approach::unknown;
    std::string source = {};  ///< where the reading came from: "FILE@2,4", or "given"

    friend bool operator==(const CalibrationPoint&, const CalibrationPoint&) = default;
};

/// Known angle = offset_deg + gain_deg_per_unit * reading.
struct Calibration {
    std::string unit;  ///< of the reading
    double gain_deg_per_unit = 1.0;
    double offset_deg = 0.0;
    double u_gain_deg_per_unit = 0.0;  ///< missing (NaN) when nothing tells: one or two points that state none
    double u_offset_deg = 0.0;         ///< likewise
    double correlation = 0.0;          ///< between offset and gain
    double degrees_of_freedom = std::numeric_limits<double>::infinity();  ///< of both uncertainties

    double residual_sd_deg = std::numeric_limits<double>::quiet_NaN();   ///< scatter about the line; from three points
    double nonlinearity_deg = std::numeric_limits<double>::quiet_NaN();  ///< largest |residual|; from three points
    double nonlinearity_pct = std::numeric_limits<double>::quiet_NaN();  ///< the same, of the span of known angles
    double hysteresis_deg = std::numeric_limits<double>::quiet_NaN();    ///< largest |falling - rising| at one angle
    double quadratic_p = std::numeric_limits<double>::quiet_NaN();  ///< of a bend by chance alone; from four points

    double reading_min = std::numeric_limits<double>::quiet_NaN();  ///< calibrated from here ...
    double reading_max = std::numeric_limits<double>::quiet_NaN();  ///< ... to here
    std::string joint;   ///< whose angles were known; empty when they belong to no joint, e.g. on a jig
    std::string motion;  ///< the known angles are positive in this motion's positive direction
    Side side = Side::unknown;
    std::string rises_with;  ///< direction of the motion in which the reading rises; empty when there is no joint
    std::vector<CalibrationPoint> points;

    [[nodiscard]] double residual_deg(const CalibrationPoint& point) const {
        return point.known_deg - (offset_deg + gain_deg_per_unit * point.reading);
    }
};

struct CalibrationOptions {
    std::string unit = "deg";                     ///< of the readings
    JointMotion motion = unknown_joint_motion();  ///< whose angles the known ones are
    Side side = Side::unknown;
    std::optional<double> gain_deg_per_unit =
        std::nullopt;                 ///< for a single point; 1 when unset and the unit is degrees
    double bend_limit_deg = 0.5;      ///< a significant bend below this is not worth a finding (common practice)
    double residual_limit_deg = 2.0;  ///< a point further off the line is worth a finding (common practice)
    double unsteady_limit_deg = 1.0;  ///< a mean reading more uncertain than this is worth a finding (common practice)
    double hysteresis_limit_deg = 2.0;  ///< hysteresis above this is worth a finding (common practice)
};

/// The calibration line through known angles.
///
/// Method: one point fixes the offset, with a stated gain. Two points fix offset and gain; their uncertainties come
/// from the points' own (known angle, and reading_sd / sqrt(effective_count)). Three or more: least squares of known
/// angle on reading, the uncertainties from the scatter about the line with n - 2 degrees of freedom, or from the
/// points' own where those are larger. Hysteresis compares the mean readings, rising and falling, at the same known
/// angle; when no approach is stated it is taken from the order of the points. A bend is a quadratic term with p <
/// 0.05. \param findings calibration-single-point, -few-points, -nonlinear, -hysteresis \throws Failure usage
/// "calibration-empty", "calibration-gain-needed", "calibration-point-incomplete" (not a number),
///   "calibration-angles-equal" or "calibration-readings-equal" (readings differ by less than three of their SDs)
/// \par Reference JCGM 100:2008, H.3 (line and its covariance), 5.1.2 (two points).
[[nodiscard]] Calibration fit_calibration(std::vector<CalibrationPoint> points, const CalibrationOptions& options,
                                          Findings& findings);

/// Angle on the calibration line (mean response) and its standard uncertainty from the line alone.
[[nodiscard]] Uncertain angle_on_line(const Calibration& calibration, double reading);

/// Angle of one new reading: as angle_on_line, with the scatter of a single reading about the line in the uncertainty.
[[nodiscard]] Uncertain angle_of_reading(const Calibration& calibration, double reading);

/// Where the calibration line is known best: the errors of the line there and of its gain are uncorrelated.
struct LineCentre {
    double reading = 0.0;
    Uncertain angle_deg;
};
/// The mean of the calibration readings, each weighted by how certain it is; for a single point its reading.
[[nodiscard]] LineCentre line_centre(const Calibration& calibration);

/// What the uncertainty of angle_of_reading() is made of: the line at its centre, the gain times the distance from
/// there, the scatter of a single reading. All rest on the same repeats.
[[nodiscard]] Budget reading_budget(const Calibration& calibration, double reading);

/// The reading to expect at an angle (inverse prediction), as the mean of `repeats` readings.
/// \pre the gain is not 0; repeats >= 1
[[nodiscard]] Uncertain reading_at_angle(const Calibration& calibration, double angle_deg, std::size_t repeats = 1);

/// SD of one reading about the line, degrees: the residual SD, or with fewer than three points what the readings' own
/// SDs amount to.
[[nodiscard]] double scatter_deg(const Calibration& calibration);

}  // namespace jointrom
