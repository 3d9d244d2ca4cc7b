#pragma once

/// \file
/// A joint angle as a motion recording of the Brain Imaging Data Structure (BIDS): three files beside each other.

#include <jointrom/angle/angle_trace.hpp>

#include <filesystem>
#include <string>

namespace jointrom {

struct BidsMotionFiles {
    std::string motion;    ///< ..._motion.tsv: no headings; angle, its standard uncertainty and velocity
    std::string channels;  ///< ..._channels.tsv: what they are
    std::string sidecar;   ///< ..._motion.json: rate, task and the rest
};

/// The content of the three files. Missing samples: "n/a".
/// \param path of the motion file; its name gives task and tracking system
/// \throws Failure usage "bids-name" unless the name is
/// sub-LABEL[_ses-LABEL]_task-LABEL_tracksys-LABEL[_...]_motion.tsv \par Reference BIDS specification 1.10, "Motion"
/// (bids-specification.readthedocs.io).
[[nodiscard]] BidsMotionFiles bids_motion_files(const AngleTrace& trace, const std::filesystem::path& path);

/// Writes the three, the motion file last. \throws Failure as bids_motion_files() and write_whole_file()
void write_bids_motion(const AngleTrace& trace, const std::filesystem::path& path);

}  // namespace jointrom
