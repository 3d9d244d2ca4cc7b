#include <jointrom/load/static_load.hpp>

#include "load_budget.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <cmath>

namespace jointrom {

StaticLoad static_load(const JointMotion& motion, const LoadModel& model, Degrees angle,
                       const std::optional<MuscleAttachment>& muscle) {
    if (!(angle >= motion.plausible_min && angle <= motion.plausible_max)) {
        throw Failure(FailureKind::usage, "value-implausible",
                      fmt::format("a joint angle of {} deg; {} {} reaches {} to {}", shortest_text(angle.value()),
                                  motion.joint, motion.motion, shortest_text(motion.plausible_min.value()),
                                  shortest_text(motion.plausible_max.value())),
                      fmt::format("Give it in degrees from neutral, {} positive.", motion.positive));
    }
    LoadModel limb_alone = model;
    limb_alone.masses.clear();
    StaticLoad load{.angle = angle,
                    .moment_nm = static_moment_nm(model, angle),
                    .moment_budget = static_moment_budget(model, angle),
                    .limb_nm = static_moment_nm(limb_alone, angle)};
    if (!(std::abs(load.moment_nm) > load.moment_budget.expanded_uncertainty())) {
        return load;
    }
    load.group = load.moment_nm > 0.0 ? MuscleGroup::positive : MuscleGroup::negative;
    if (muscle) {
        load.muscle_n = muscle_force_n(load.moment_nm, *muscle);
        load.muscle_budget = muscle_force_budget(load.moment_nm, load.moment_budget, *muscle);
        if (muscle->pull.is_set()) {
            load.joint_n = joint_force_n(model, {.joint_angle = angle}, load.moment_nm, *muscle);
        }
    }
    return load;
}

}  // namespace jointrom
