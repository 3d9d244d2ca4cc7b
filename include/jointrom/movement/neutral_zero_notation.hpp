#pragma once

/// \file
/// A range of motion in the neutral zero notation, and its ends in words.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/units.hpp>

#include <string>

namespace jointrom {

/// Whole degrees with the directions that they belong to, which the numbers mean nothing without.
struct NeutralZeroNotation {
    std::string directions;  ///< e.g. "extension-flexion"
    std::string numbers;     ///< e.g. "5-0-145"

    [[nodiscard]] std::string text() const { return directions + " " + numbers; }
};

/// Three numbers, first the negative direction, last the positive one, the zero in the middle if the joint gets there:
/// 5-0-145 through neutral; 0-20-145 when 20 deg are lacking to neutral in the negative direction; 30-10-0 when 10 deg
/// are lacking in the positive one. A stiff joint has two, its angle on the side where it is stuck: 0-50, 50-0.
///
/// \param negative_end the extreme in the negative direction, signed
/// \param positive_end the extreme in the positive direction
/// \pre negative_end <= positive_end, both set
/// \par Reference neutral zero method: E. F. Cave and S. M. Roberts 1936, J Bone Joint Surg 18:455 (from memory)
[[nodiscard]] NeutralZeroNotation neutral_zero_notation(Degrees negative_end, Degrees positive_end,
                                                        const JointMotion& motion);

/// Which end of a range an angle is.
enum class RangeEnd { negative, positive };

/// An end of a range in words, free of the sign that disciplines disagree about: "extension to 5 deg beyond neutral",
/// "extension to 20 deg short of neutral", "flexion to neutral", "flexion to 145 deg".
[[nodiscard]] std::string range_end_in_words(Degrees angle, RangeEnd end, const JointMotion& motion);

}  // namespace jointrom
