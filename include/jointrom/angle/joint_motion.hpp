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

/// The extent in one direction of a joint motion, or the arc from one end to the other.
enum class MotionPart { positive, negative, arc };

/// The convention of the International Society of Biomechanics for the same axis.
struct AxisConvention {
    std::string positive;  ///< name of its positive direction
    std::string zero;      ///< its zero, in words; empty when it is the neutral posture
    std::string basis;     ///< where that is written
};

/// How far measurements of the joint usually differ.
struct TypicalError {
    Degrees value;
    std::string what;    ///< which statistic, in words
    std::string source;  ///< key in data/norms/sources.csv
};

/// The least change or difference that is more than measurement error.
struct DetectableChange {
    Degrees positive;  ///< of the extent in the positive direction; unset when no figure is known
    Degrees negative;
    Degrees arc;
    std::string what;    ///< which statistic, in words
    std::string source;  ///< key in data/norms/sources.csv

    /// The figure for a part; unset when none is known.
    [[nodiscard]] Degrees of(MotionPart part) const noexcept;
};

/// One axis of one joint. Angles are positive in the `positive` direction, zero in the neutral posture.
struct JointMotion {
    std::string joint;            ///< e.g. "elbow"; empty when the joint is unknown
    std::string motion;           ///< e.g. "flexion-extension"
    std::string positive;         ///< e.g. "flexion"
    std::string negative;         ///< e.g. "extension"
    std::string neutral_posture;  ///< in words
    Degrees plausible_min;  ///< below this a value is no joint angle but a mistake; unset when the joint is unknown
    Degrees plausible_max;
    std::optional<AxisConvention> isb = {};  ///< unset when it is not known
    std::optional<TypicalError> typical_error = {};
    std::optional<DetectableChange> detectable_change = {};

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

/// The direction's name, or the motion's name for the arc.
[[nodiscard]] const std::string& name_of(MotionPart part, const JointMotion& motion);

/// A direction or a whole motion, found by the name that a user writes.
struct NamedPart {
    const JointMotion* motion;
    MotionPart part;
};

/// What a name means for one motion of the built-in table; nothing when it has no such name.
[[nodiscard]] std::optional<MotionPart> find_part(const JointMotion& motion, std::string_view name);

/// \param joint  name of a joint in any case
/// \param motion a direction ("flexion", "internal rotation"), or the name of a motion, which means its arc
///               ("flexion-extension", "deviation")
/// \throws Failure usage "joint-unknown" or "motion-unknown", naming the nearest known name
[[nodiscard]] NamedPart motion_part(std::string_view joint, std::string_view motion);

/// The extent in a direction that a joint angle stands for: the angle or its opposite. Beyond neutral is positive, so
/// an elbow that stays 4 degrees short of straight (angle 4) has an extension of -4. \pre `part` is a direction
[[nodiscard]] Degrees extent_of_angle(Degrees angle, MotionPart part);

/// The stand-in for an unknown joint: directions "positive" and "negative", no plausible limits.
[[nodiscard]] const JointMotion& unknown_joint_motion();

}  // namespace jointrom
