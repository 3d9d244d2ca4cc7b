#pragma once

/// \file
/// One recording from file to angle: the first half of every measurement.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/recording/recording.hpp>

#include <iosfwd>
#include <string>

namespace jointrom {

/// A recording whose angle is ready to be measured.
struct Trial {
    Recording recording;  ///< without the samples of the angle channel, which the trace has taken over
    AngleTrace trace;
    Findings findings;  ///< of reading and of preparing the angle
};

/// The recording in a file, or in `standard_input` when `file` is "-", as the settings have it.
/// \throws Failure as read_table() and read_recording()
[[nodiscard]] Recording read_recording(const std::string& file, std::istream& standard_input, const Settings& settings);

/// The recording in a file, or in `standard_input` when `file` is "-", and its joint angle.
///
/// Method: read_recording(), then prepare_angle() with what the settings say; joint and side are taken from the texts
/// of the recording where the settings are silent. A table that `angles` wrote is taken as it is. \throws Failure as
/// read_table(), read_recording(), read_calibration() and prepare_angle()
[[nodiscard]] Trial prepare_trial(const std::string& file, std::istream& standard_input, const Settings& settings);

}  // namespace jointrom
