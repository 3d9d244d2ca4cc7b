#pragma once

/// \file
/// Recordings in the European Data Format, EDF and EDF+: channels of any rate in one file. Only where the library was
/// built with libedf.

#include <jointrom/recording/read_recording.hpp>

#include <filesystem>
#include <string_view>

namespace jointrom {

/// The annotation at the end of a recording whose last record was filled up; write_edf() of this library puts it there.
inline constexpr std::string_view end_annotation = "end of the recording";

/// Whether the file's name ends in ".edf", in any case of letters.
[[nodiscard]] bool is_edf(const std::filesystem::path& path);

/// The recording in such a file.
///
/// Method: a signal's label and physical dimension give its name, unit and role as headings do; the angle is the one
/// that `options` name, else the first of that role. Volts and microvolts of muscles become millivolts. Times count
/// from the first sample on. A file that this library wrote ends at its end_annotation; other annotations are for
/// read_annotations(). Missing samples: EDF has none. Findings: those of angle_findings().
///
/// \throws Failure missing_file "file-missing"; unreadable_data "edf-unreadable" (no EDF, or a discontinuous one),
///   "no-channels", "rate-implausible", "too-few-rows"; usage "edf-unsupported" where libedf was not there at build
///   time, "column-missing"
/// \par Reference B. Kemp, J. Olivan, European data format 'plus', Clin. Neurophysiol. 114 (2003) 1755-1761.
[[nodiscard]] Recording read_edf(const std::filesystem::path& path, const ReadingOptions& options);

}  // namespace jointrom
