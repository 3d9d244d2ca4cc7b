#pragma once

/// \file
/// From a recording of the sensor at known angles to calibration points.

#include <jointrom/angle/calibration.hpp>
#include <jointrom/recording/recording.hpp>

#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// The mean reading over a window, for one known angle.
///
/// Method: held_level() of the channel's samples, angles joined up across full turns. A drift within the window makes
/// effective_count smaller, so that reading_sd / sqrt(effective_count) holds all of the mean's uncertainty.
/// \param window  times on the recording's clock; unset: the whole recording
/// \param known_u standard uncertainty of the known angle; unset: not stated
/// \param file    name for the point's source, which becomes "FILE@START,END"
/// \throws Failure usage "window-empty" when the window holds no sample
[[nodiscard]] CalibrationPoint read_calibration_point(const Channel& channel, TimeWindow window, Degrees known,
                                                      Degrees known_u, const std::string& file);

/// One point for each known angle, from a recording in which the sensor was held at one after the other.
///
/// Method: still stretches of at least a second, the reading scaled so that its range is that of the known angles;
/// neighbouring stretches at one level are one hold. There must be as many holds as known angles.
/// \param known_deg in the order in which they were held
/// \throws Failure usage "calibration-holds" when the number of holds is another, saying where the holds are;
///   "calibration-angles-equal" when the known angles do not differ
[[nodiscard]] std::vector<CalibrationPoint> read_calibration_holds(const Channel& channel,
                                                                   std::span<const double> known_deg, Degrees known_u,
                                                                   const std::string& file);

}  // namespace jointrom
