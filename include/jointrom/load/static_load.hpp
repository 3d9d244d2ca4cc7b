#pragma once

/// \file
/// The load of a limb that is held still at an angle: a problem on paper, without a recording.

#include <jointrom/core/uncertainty.hpp>
#include <jointrom/core/units.hpp>
#include <jointrom/load/joint_load.hpp>
#include <jointrom/load/load_model.hpp>

#include <limits>
#include <optional>

namespace jointrom {

struct StaticLoad {
    Degrees angle;
    double moment_nm = 0.0;     ///< static_moment_nm()
    Budget moment_budget = {};  ///< of masses, distances, the limb's parameters and the posture of the near part
    double limb_nm = 0.0;       ///< the part of the moment that is due to the limb itself
    MuscleGroup group = MuscleGroup::undecided;  ///< undecided when the moment is no larger than its uncertainty
    /// muscle_force_n(); missing (NaN) unless a muscle is known and the group is told.
    double muscle_n = std::numeric_limits<double>::quiet_NaN();
    Budget muscle_budget = {};
    double joint_n = std::numeric_limits<double>::quiet_NaN();  ///< joint_force_n(); needs the muscle's direction, too
};

/// The load at a joint angle that is taken as exact.
/// \throws Failure usage "value-implausible" for an angle that the joint does not reach
/// \par Accuracy 470 N and 407 N, 1927 N and 1705 N of two textbooks (OpenStax: College Physics 9.6, University Physics
/// 12.4), to their digits
[[nodiscard]] StaticLoad static_load(const JointMotion& motion, const LoadModel& model, Degrees angle,
                                     const std::optional<MuscleAttachment>& muscle = std::nullopt);

}  // namespace jointrom
