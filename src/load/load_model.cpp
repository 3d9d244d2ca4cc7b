#include <jointrom/load/load_model.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/core/uncertainty.hpp>

#include <fmt/format.h>

#include <cassert>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

double radians(double angle_deg) {
    return angle_deg * std::numbers::pi / 180.0;
}

/// Components along the limb, away from the joint, and across it, in the positive direction of the motion.
struct LimbVector {
    double along = 0.0;
    double across = 0.0;
};

}  // namespace

HeldMass held_mass(double mass_kg, double at_m) {
    if (!(mass_kg >= 0.0 && mass_kg <= 300.0)) {
        throw Failure(FailureKind::usage, "load-invalid",
                      fmt::format("a load of {} kg, expected 0 to 300", shortest_text(mass_kg)),
                      "Give --load-kg in kilograms.");
    }
    if (!(at_m > 0.0 && at_m <= 2.0)) {
        throw Failure(
            FailureKind::usage, "load-invalid",
            fmt::format("a load at a distance of {} m, expected more than 0 and at most 2", shortest_text(at_m)),
            at_m > 2.0 && at_m <= 200.0
                ? fmt::format("Give --load-at-m in metres: {}.", shortest_text(at_m / 100.0))
                : "Give --load-at-m in metres, from the joint's axis to the middle of the load.");
    }
    return {
        .mass_kg = mass_kg, .at_m = at_m, .u_mass_kg = rectangular_u(0.02 * mass_kg), .u_at_m = rectangular_u(0.01)};
}

double LoadModel::first_moment_kg_m() const {
    double sum = limb.mass_kg * limb.com_m;
    for (const HeldMass& held : masses) {
        sum += held.mass_kg * held.at_m;
    }
    return sum;
}

double LoadModel::inertia_kg_m2() const {
    double sum = limb.inertia_kg_m2;
    for (const HeldMass& held : masses) {
        sum += held.mass_kg * held.at_m * held.at_m;
    }
    return sum;
}

double LoadModel::horizontal_moment_nm() const {
    return gravity_m_s2 * first_moment_kg_m();
}

double LoadModel::weight_n() const {
    double sum = limb.mass_kg;
    for (const HeldMass& held : masses) {
        sum += held.mass_kg;
    }
    return gravity_m_s2 * sum;
}

double static_moment_nm(const LoadModel& model, Degrees joint_angle) {
    return model.horizontal_moment_nm() * std::sin(radians(model.hanging_deg(joint_angle)));
}

double MuscleAttachment::moment_arm_m() const {
    return pull.is_set() ? at_m * std::sin(radians(pull.value())) : at_m;
}

MuscleAttachment muscle_attachment(double at_m, Degrees pull) {
    if (!(at_m > 0.0 && at_m <= 0.2)) {
        throw Failure(FailureKind::usage, "moment-arm-invalid",
                      fmt::format("a moment arm of {} m, expected more than 0 and at most 0.2", shortest_text(at_m)),
                      "Give --moment-arm-m in metres; 0.04 is usual for the biceps at the elbow.");
    }
    if (pull.is_set() && !(pull > Degrees(0.0) && pull < Degrees(180.0))) {
        throw Failure(
            FailureKind::usage, "moment-arm-invalid",
            fmt::format("an angle of pull of {} deg, expected between 0 and 180", shortest_text(pull.value())),
            "Give --pull-deg between the muscle and the bone, on the side of the joint.");
    }
    return {.at_m = at_m, .pull = pull};
}

double muscle_force_n(double moment_nm, const MuscleAttachment& muscle) {
    return std::abs(moment_nm) / muscle.moment_arm_m();
}

Budget muscle_force_budget(double moment_nm, const Budget& moment_budget, const MuscleAttachment& muscle) {
    Budget budget;
    budget.add({.input = "moment (N m)",
                .u = moment_budget.standard_uncertainty(),
                .sensitivity = 1.0 / muscle.moment_arm_m(),
                .degrees_of_freedom = moment_budget.effective_degrees_of_freedom()});
    budget.add({.input = "moment arm, relative, assumed",
                .u = muscle.u_relative,
                .sensitivity = muscle_force_n(moment_nm, muscle)});
    return budget;
}

double joint_force_n(const LoadModel& model, const LimbMotion& motion, double moment_nm,
                     const MuscleAttachment& muscle) {
    assert(muscle.pull.is_set());
    const double hanging = radians(model.hanging_deg(motion.joint_angle));
    const double pull = radians(muscle.pull.value());
    const double force_n = muscle_force_n(moment_nm, muscle);
    const LimbVector muscles{-force_n * std::cos(pull), std::copysign(force_n * std::sin(pull), moment_nm)};
    const LimbVector weight{model.weight_n() * std::cos(hanging), -model.weight_n() * std::sin(hanging)};
    LimbVector rate_of_momentum;
    if (model.with_inertia) {
        const double speed = radians(motion.velocity_deg_s);
        rate_of_momentum = {-model.first_moment_kg_m() * speed * speed,
                            model.first_moment_kg_m() * radians(motion.acceleration_deg_s2)};
    }
    return std::hypot(rate_of_momentum.along - muscles.along - weight.along,
                      rate_of_momentum.across - muscles.across - weight.across);
}

}  // namespace jointrom
