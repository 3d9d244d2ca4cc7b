#pragma once

/// \file
/// Calibration and control points as a user names them.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/angle/calibration.hpp>

#include <iosfwd>
#include <string>
#include <utility>
#include <vector>

namespace jointrom {

/// Points and the unit that their readings have.
struct NamedPoints {
    std::vector<CalibrationPoint> points;
    std::string unit;  ///< of the recordings that they were read from; empty when none names it
    std::vector<std::pair<std::string, std::size_t>> files;  ///< the recordings and how many rows each has
    Findings findings;                                       ///< of the recordings
};

/// The points for texts "ANGLE=READING", "ANGLE=FILE@START,END" or "ANGLES=FILE": known angles in degrees, and what the
/// sensor read: a number, the mean over a window (seconds) of a recording, or the holds of a recording one after the
/// other.
///
/// \param settings how recordings are read; each file is read once
/// \param known_u  standard uncertainty of every known angle; 0 when it is not known
/// \throws Failure usage "point-invalid" for a text of another form, "units-differ" when recordings have different
///   units; and as read_recording(), read_calibration_point(), read_calibration_holds()
[[nodiscard]] NamedPoints calibration_points(const std::vector<std::string>& texts, const Settings& settings,
                                             Degrees known_u, std::istream& standard_input);

}  // namespace jointrom
