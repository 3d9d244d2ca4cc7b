#pragma once

/// \file
/// The joint and the side of the body that a recording names in passing.

#include <jointrom/recording/recording.hpp>

#include <string>

namespace jointrom {

/// What the texts of a recording say about where it was taken. Empty where they say nothing or contradict each other.
struct Inferred {
    std::string joint;        ///< as in the table of joint motions, e.g. "elbow"
    std::string joint_where;  ///< what says so, e.g. "the file name 'P01_right_elbow.csv'"
    std::string side;         ///< "left" or "right"
    std::string side_where;
    std::string contradiction;  ///< in words, where two texts name different joints or sides
};

/// Joint and side as the words of the angle's heading, the trial's label, the lines above the table and the file name
/// have them, in several languages; L and R count as whole words only.
///
/// Method: a text that names two joints (or both sides) says nothing; two texts that differ contradict each other.
[[nodiscard]] Inferred infer_joint_and_side(const Recording& recording);

}  // namespace jointrom
