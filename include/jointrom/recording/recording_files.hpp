#pragma once

/// \file
/// Which files a recording consists of: one, or with those that describe it (bids_motion.hpp).

#include <filesystem>
#include <vector>

namespace jointrom {

/// Whether a standard, and not the file's own text, says how the file is written: a BIDS motion recording or EDF, by
/// its name.
[[nodiscard]] bool is_of_standard(const std::filesystem::path& path);

/// The files that the recording at `path` is read from, itself first; of a BIDS motion recording then ..._channels.tsv
/// and ..._motion.json.
/// \throws Failure missing_file "sidecar-missing" when the motion file is there and one that describes it is not
[[nodiscard]] std::vector<std::filesystem::path> recording_files(const std::filesystem::path& path);

/// Whether the file describes recordings and is none itself: ..._channels.tsv and ..._motion.json with ..._motion.tsv
/// beside them; and what BIDS calls sub-..._channels.tsv, _events.tsv, _scans.tsv and _sessions.tsv.
/// \par Reference BIDS specification 1.10, "Motion", "Task events", "Scans file", "Sessions file"
/// (bids-specification.readthedocs.io).
[[nodiscard]] bool is_description(const std::filesystem::path& path);

}  // namespace jointrom
