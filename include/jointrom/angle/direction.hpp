#pragma once

/// \file
/// The sign that turns the zeroed reading into the anatomical direction, and whether the joint can move that way.

#include <jointrom/angle/calibration.hpp>
#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/finding.hpp>

#include <optional>
#include <string>

namespace jointrom {

/// What is known about the direction.
struct DirectionContext {
    const JointMotion& motion;
    Side side = Side::unknown;
    const Calibration* calibration = nullptr;   ///< when the reading was calibrated
    std::optional<bool> mirror = std::nullopt;  ///< stated: turn the sign round, or leave it
};

struct Direction {
    int sign = 1;      ///< anatomical angle = sign * (reading - zero)
    std::string step;  ///< in words
};

/// The sign as far as it is stated: by `mirror`, or by a calibration whose known angles were this joint motion's. One
/// made on the other side is turned round (finding calibration-side-changed); one of another joint says nothing
/// (finding calibration-other-joint).
[[nodiscard]] std::optional<Direction> stated_direction(const DirectionContext& context, Findings& findings);

/// How far a range of zeroed readings stays within what the joint can reach with this sign; negative when it leaves it.
/// \pre motion.is_known()
[[nodiscard]] Degrees plausibility_margin(const JointMotion& motion, Degrees low, Degrees high, int sign);

/// The sign inferred from where the joint can go.
///
/// Method: of both signs the one with the larger plausibility margin. Margins that differ by less than 15 deg, and an
/// unknown joint, tell nothing: then the larger excursion from zero counts as positive.
/// \param low,high range of the zeroed reading
/// \param findings direction-inferred or direction-unknown
[[nodiscard]] Direction infer_direction(const JointMotion& motion, Degrees low, Degrees high, Findings& findings);

/// Says what the joint cannot do: direction-implausible when the other sign would fit, angle-implausible when neither
/// does. The sign stays as it is.
/// \param low,high range of the anatomical angle
void judge_direction(const JointMotion& motion, Degrees low, Degrees high, Findings& findings);

}  // namespace jointrom
