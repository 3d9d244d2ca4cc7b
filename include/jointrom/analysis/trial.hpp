#pragma once

/// \file
/// One recording from file to angle: the first half of every measurement.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/recording/recording.hpp>

#include <iosfwd>
#include <optional>
#include <string>

namespace jointrom {

/// A recording whose angle is ready to be measured.
struct Trial {
    Recording recording;
    AngleTrace trace;
    Findings findings;  ///< of reading and of preparing the angle
};

/// The recording in a file, or in `standard_input` when `file` is "-", as the settings have it.
/// \throws Failure as read_table() and read_recording()
[[nodiscard]] Recording read_recording(const std::string& file, std::istream& standard_input, const Settings& settings);

/// The files that settings name beside the recording itself, read once for any number of trials.
struct References {
    std::optional<Calibration> calibration;
    std::optional<Recording> neutral;
};

/// \throws Failure as read_calibration() and read_recording()
[[nodiscard]] References read_references(const Settings& settings, std::istream& standard_input);

/// A recording that has been read, and its joint angle.
///
/// Method: prepare_angle() with what the settings say; joint and side are taken from the texts of the recording where
/// the settings are silent. A table that `angles` wrote is taken as it is.
/// \throws Failure usage "joint-missing", "neutral-twice"; as angle_channel() and prepare_angle()
[[nodiscard]] Trial prepare_trial(Recording recording, const Settings& settings, const References& references);

/// The recording in a file, or in `standard_input` when `file` is "-", and its joint angle: read_recording(),
/// read_references(), prepare_trial(). \throws Failure as they do
[[nodiscard]] Trial prepare_trial(const std::string& file, std::istream& standard_input, const Settings& settings);

}  // namespace jointrom
