#pragma once

/// \file
/// Motion recordings as the Brain Imaging Data Structure (BIDS) lays them out: SUB_task-T_tracksys-S_motion.tsv without
/// headings, its columns described in ..._channels.tsv, its rate and the rest in ..._motion.json.

#include <jointrom/recording/read_recording.hpp>

#include <filesystem>
#include <string>
#include <string_view>

namespace jointrom {

/// Whether the file's name ends in "_motion.tsv".
[[nodiscard]] bool is_bids_motion(const std::filesystem::path& path);

/// The label that the file's name gives to an entity: "P01" for "sub" in sub-P01_task-elbow_..._motion.tsv; empty
/// without.
[[nodiscard]] std::string bids_label(const std::filesystem::path& path, std::string_view entity);

/// The recording in such a file and the two beside it.
///
/// Method: a column's heading is its name and unit; that of type LATENCY holds the times, else the rate is
/// SamplingFrequency; of one column of type JNTANG, it is the angle, of several the one that read_recording() takes.
/// What `options` state goes before. Missing samples ("n/a"): NaN.
///
/// \throws Failure missing_file "file-missing", "sidecar-missing"; unreadable_data "bids-sidecar" (no JSON, or no
/// rate), "bids-columns" (more
///   or fewer channels than columns); as read_recording()
/// \par Reference BIDS specification 1.10, "Motion" (bids-specification.readthedocs.io).
[[nodiscard]] Recording read_bids_motion(const std::filesystem::path& path, const ReadingOptions& options);

}  // namespace jointrom
