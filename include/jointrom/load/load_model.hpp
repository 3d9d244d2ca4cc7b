#pragma once

/// \file
/// What hangs on a joint: the limb beyond it and the masses fixed to it, turning about the joint in a vertical plane.

#include <jointrom/core/uncertainty.hpp>
#include <jointrom/core/units.hpp>
#include <jointrom/load/limb.hpp>

#include <string>
#include <vector>

namespace jointrom {

/// A mass held in the hand or strapped to the limb; its own size is left out.
struct HeldMass {
    double mass_kg = 0.0;
    double at_m = 0.0;  ///< from the joint's axis to its middle, along the limb
    double u_mass_kg = 0.0;
    double u_at_m = 0.0;
};

/// A held mass with usual uncertainties, rectangular: 2 % of the mass and 0.01 m (common practice, no source).
/// \throws Failure usage "load-invalid" unless the mass is 0 to 300 kg and the distance more than 0 and at most 2 m
[[nodiscard]] HeldMass held_mass(double mass_kg, double at_m);

struct LoadModel {
    Limb limb = {};
    std::vector<HeldMass> masses = {};
    Degrees from_hanging{0.0};      ///< where the limb points in neutral, as Posture::from_hanging
    Degrees u_from_hanging{3.0};    ///< of that: how still the near part is held (common practice, no source)
    double gravity_m_s2 = 9.80665;  ///< standard gravity, ISO 80000-3; within 0.3 % anywhere on land
    bool with_inertia = true;       ///< false: as if every moment were held still

    /// Sum of mass times distance: what the moment of gravity is made of.
    [[nodiscard]] double first_moment_kg_m() const;
    /// Moment of inertia about the joint's axis.
    [[nodiscard]] double inertia_kg_m2() const;
    /// Moment that holds the limb horizontal: the largest that gravity asks for.
    [[nodiscard]] double horizontal_moment_nm() const;
    [[nodiscard]] double weight_n() const;
    /// Angle of the limb from hanging straight down at a joint angle.
    [[nodiscard]] double hanging_deg(Degrees joint_angle) const { return (from_hanging + joint_angle).value(); }
};

/// Moment of the muscles that holds the limb still at a joint angle, N m, positive in the positive direction of the
/// motion.
///
/// Method: M = g (sum of m L) sin(phi), phi being the limb's angle from hanging straight down.
/// \par Accuracy the published 18.8 N m of the forearm with a book (OpenStax, College Physics, 9.6), to its digits
[[nodiscard]] double static_moment_nm(const LoadModel& model, Degrees joint_angle);

/// Where a muscle takes hold of the limb.
struct MuscleAttachment {
    double at_m = 0.0;        ///< from the joint's axis along the limb; with no pull angle, the moment arm itself
    Degrees pull{};           ///< between the muscle and the bone on the joint's side; 90 when unset
    double u_relative = 0.1;  ///< of the moment arm (common practice, no source)

    /// Perpendicular distance from the joint's axis to the line of pull.
    [[nodiscard]] double moment_arm_m() const;
};

/// \throws Failure usage "moment-arm-invalid" unless 0 < at_m <= 0.2 and 0 < pull < 180
[[nodiscard]] MuscleAttachment muscle_attachment(double at_m, Degrees pull = {});

/// Force of one muscle that makes the moment all by itself, N; the sign of the moment does not matter.
[[nodiscard]] double muscle_force_n(double moment_nm, const MuscleAttachment& muscle);

/// Of muscle_force_n(): that of the moment, and of the moment arm.
[[nodiscard]] Budget muscle_force_budget(double moment_nm, const Budget& moment_budget, const MuscleAttachment& muscle);

/// How the limb moves at one moment.
struct LimbMotion {
    Degrees joint_angle;
    double velocity_deg_s = 0.0;
    double acceleration_deg_s2 = 0.0;
};

/// Force between the bones of the joint, N, with one muscle that makes the whole moment.
///
/// Method: what accelerates the limb's and loads' masses is their weight, the pull of the muscle and the force of the
/// near bone on the limb. \pre muscle.pull is set, else the direction of the pull is not known
/// \par Accuracy the published 407 N and 1705 N (OpenStax: College Physics 9.6, University Physics 12.4), to their
/// digits
[[nodiscard]] double joint_force_n(const LoadModel& model, const LimbMotion& motion, double moment_nm,
                                   const MuscleAttachment& muscle);

}  // namespace jointrom
