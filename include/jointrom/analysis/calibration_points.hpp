#pragma once

/// \file
/// Calibration and control points as a user names them.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/angle/calibration.hpp>

#include <iosfwd>
#include <string>
#include <vector>

namespace jointrom {

/// Points and the unit that their readings have.
struct NamedPoints {
    std::vector<CalibrationPoint> points;
    std::string unit;  ///< of the recordings that they were read from; empty when none names it
    Findings findings;  ///< of the recordings
};

/// The points for texts "ANGLE=READING" or "ANGLE=FILE@START,END": the known angle in degrees, and what the sensor read,
/// as a number or as the mean over a window (seconds) of a recording.
///
/// \param settings how recordings are read; each file is read once
/// \param known_u_deg standard uncertainty of every known angle
/// \throws Failure usage "point-invalid" for a text of another form, "window-empty" for a window without samples,
///   "units-differ" when recordings have different units; and as read_recording()
[[nodiscard]] NamedPoints calibration_points(const std::vector<std::string>& texts, const Settings& settings,
                                             double known_u_deg, std::istream& standard_input);

}  // namespace jointrom
