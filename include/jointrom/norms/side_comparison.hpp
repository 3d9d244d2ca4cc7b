#pragma once

/// \file
/// Left against right of one person.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/uncertainty.hpp>

#include <string>

namespace jointrom {

/// From how large a difference on it is more than usual measurement error.
struct SideLimit {
    Degrees limit;
    std::string basis;  ///< which figure it is and where it comes from, in words
};

/// The larger of 5 deg and the detectable change of the joint.
///
/// \param least the limit where no larger figure is known; 5 deg is common practice (Boone 1978: testers differ by
/// more)
[[nodiscard]] SideLimit side_limit(const JointMotion& motion, MotionPart part, Degrees least = Degrees(5.0));

struct SideComparison {
    Degrees left;
    Degrees right;
    Degrees difference;  ///< left less right
    Budget budget = {};  ///< of the difference; empty when nothing is known of either
    SideLimit limit = {};
    bool is_larger = false;   ///< |difference| > limit: larger than usual measurement error
    bool is_certain = false;  ///< and by more than its own expanded uncertainty, or smaller by more than it
};

struct SideExtent {
    Degrees extent;
    Budget budget;
};

/// The difference between the sides, its uncertainty, and whether it is larger than usual measurement error.
///
/// Method: an error that both sides share, such as the gain of one calibration, counts for the difference only.
/// \param common what both were measured with: one calibration, or (this_value) nothing that is known
[[nodiscard]] SideComparison compare_sides(const SideExtent& left, const SideExtent& right, const SideLimit& limit,
                                           CommonTo common = CommonTo::this_value);

/// "larger than usual measurement error" or "within usual measurement error"; with "perhaps" where the uncertainty of
/// the difference leaves it open.
[[nodiscard]] std::string in_words(const SideComparison& comparison);

}  // namespace jointrom
