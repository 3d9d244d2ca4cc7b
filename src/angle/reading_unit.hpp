#pragma once

/// \file
/// From the numbers in a channel to degrees.

#include <jointrom/angle/calibration.hpp>
#include <jointrom/core/finding.hpp>

#include <limits>
#include <optional>
#include <string>
#include <string_view>

namespace jointrom {

/// degrees = offset_deg + gain_deg * number
struct ReadingScale {
    double gain_deg = 1.0;
    double offset_deg = 0.0;
    double full_turn = std::numeric_limits<double>::quiet_NaN();  ///< number of a full turn; NaN when it is no angle
    std::string step = {};                                        ///< in words
};

/// How a channel's numbers become degrees.
///
/// Method: the unit is the stated one, or the channel's, or (with finding unit-assumed) the calibration's or degrees.
/// Prefixes (mV for V) and radians are converted to the calibration's unit.
/// \throws Failure usage "calibration-needed" for a unit that is no angle, without a calibration; "calibration-unit"
///   when it does not fit the calibration's; "angle-unit-unknown" for a stated unit that is not known
[[nodiscard]] ReadingScale reading_scale(std::string_view channel_unit, std::string_view stated_unit,
                                         const std::optional<Calibration>& calibration, Findings& findings);

/// Number of a full turn in a unit; NaN when it is no unit of an angle.
[[nodiscard]] double full_turn_in(std::string_view unit);

}  // namespace jointrom
