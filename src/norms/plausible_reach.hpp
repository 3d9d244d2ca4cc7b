#pragma once

/// \file
/// What a joint can reach in a direction; a value beyond is a mistake.

#include <jointrom/angle/joint_motion.hpp>

namespace jointrom {

/// Beyond neutral positive, degrees.
struct Reach {
    double least_deg;
    double most_deg;
};

[[nodiscard]] inline Reach plausible_reach(const JointMotion& motion, MotionPart part) {
    const double low = motion.plausible_min.value();
    const double high = motion.plausible_max.value();
    switch (part) {
    case MotionPart::positive:
        return {low, high};
    case MotionPart::negative:
        return {-high, -low};
    case MotionPart::arc:
        break;
    }
    return {0.0, high - low};
}

}  // namespace jointrom
