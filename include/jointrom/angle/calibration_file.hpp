#pragma once

/// \file
/// The calibration file: JSON, schema "jointrom-calibration", version 1. It holds no date, so equal calibrations give
/// equal bytes.

#include <jointrom/angle/calibration.hpp>

#include <filesystem>
#include <string>
#include <string_view>

namespace jointrom {

/// The calibration as the text of a file. A number that is not known, or infinite degrees of freedom, is null.
[[nodiscard]] std::string calibration_text(const Calibration& calibration);

/// The calibration in the text of a file.
///
/// \param file name for messages
/// \throws Failure unreadable_data "calibration-file-invalid" when the text is no JSON, a key is unknown or missing or
///   has the wrong type, the version is another, or a point's residual contradicts the line
[[nodiscard]] Calibration parse_calibration(std::string_view text, const std::string& file = {});

/// \throws Failure missing_file "file-missing"; otherwise as parse_calibration()
[[nodiscard]] Calibration read_calibration(const std::filesystem::path& path);

}  // namespace jointrom
