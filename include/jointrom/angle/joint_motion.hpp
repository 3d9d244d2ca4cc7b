#pragma once

/// \file
/// The joints that are known and the pair of directions in which each can move (data/joints.json, built into the
/// library).

#include <jointrom/core/units.hpp>

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace jointrom {

enum class Side { unknown, left, right };

[[nodiscard]] std::string_view name_of(Side side);
/// "left"/"right" and the usual abbreviations l, r, lt, rt, in any case. \throws Failure usage for anything else.
[[nodiscard]] Side side_named(std::string_view text);

/// One axis of one joint. Angles are positive in the `positive` direction, zero in the neutral posture.
struct JointMotion {
    std::string joint;            ///< e.g. "elbow"; empty when the joint is unknown
    std::string motion;           ///< e.g. "flexion-extension"
    std::string positive;         ///< e.g. "flexion"
    std::string negative;         ///< e.g. "extension"
    std::string neutral_posture;  ///< in words
    Degrees plausible_min;  ///< below this a value is no joint angle but a mistake; unset when the joint is unknown
    Degrees plausible_max;

    [[nodiscard]] bool is_known() const noexcept { return !joint.empty(); }
};

/// Every joint motion of the built-in table, sorted by joint and motion, the joint's principal motion first.
[[nodiscard]] std::span<const JointMotion> joint_motions();

/// The motion for names as a user writes them.
///
/// \param joint  name of a joint in any case
/// \param motion name of the motion or of one of its directions; empty for the joint's principal motion
/// \throws Failure usage "joint-unknown" or "motion-unknown", naming the nearest known name
[[nodiscard]] const JointMotion& joint_motion(std::string_view joint, std::string_view motion = {});

/// The stand-in for an unknown joint: directions "positive" and "negative", no plausible limits.
[[nodiscard]] const JointMotion& unknown_joint_motion();

}  // namespace jointrom
