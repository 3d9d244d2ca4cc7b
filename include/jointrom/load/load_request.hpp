#pragma once

/// \file
/// A load as a user states it, turned into a load model.

#include <jointrom/core/finding.hpp>
#include <jointrom/load/load_model.hpp>

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {

/// What is not stated is missing (NaN) or empty.
struct LoadRequest {
    BodySize body;
    std::string segments = "winter";  ///< a segment set, or "none" to leave the limb's own weight out
    double segment_kg = std::numeric_limits<double>::quiet_NaN();  ///< the limb as known, instead of body and set
    double segment_at_m = std::numeric_limits<double>::quiet_NaN();
    std::vector<double> load_kg;                                  ///< held masses ...
    std::vector<double> load_at_m;                                ///< ... and the distance of each
    double load_u_kg = std::numeric_limits<double>::quiet_NaN();  ///< standard uncertainty of each; else held_mass()
    double load_at_u_m = std::numeric_limits<double>::quiet_NaN();
    std::string posture;    ///< a name of postures_of(); empty: the usual one
    Degrees posture_angle;  ///< Posture::from_hanging, stated instead of a name
    Degrees posture_u = LoadModel().u_from_hanging;
    double gravity_m_s2 = LoadModel().gravity_m_s2;
    bool quasi_static = false;                                       ///< leave the acceleration out
    double moment_arm_m = std::numeric_limits<double>::quiet_NaN();  ///< of a muscle: MuscleAttachment::at_m
    Degrees pull;                                                    ///< and MuscleAttachment::pull
};

/// The load model for a joint.
/// \param findings posture-assumed when the posture is neither named nor stated
/// \throws Failure usage "load-incomplete" when masses and distances do not come in pairs, or half of a segment is
/// given;
///   "posture-twice"; "load-empty" when nothing hangs on the joint; "uncertainty-negative"; "gravity-implausible"
///   outside 1 to 30 m/s2; and as limb_beyond(), stated_limb(), held_mass(), posture_named()
[[nodiscard]] LoadModel load_model(const JointMotion& motion, const LoadRequest& request, Findings& findings);

/// The muscle whose force is asked for.
/// \return nothing when no moment arm is stated
/// \throws Failure usage "moment-arm-missing" for a direction of pull without an arm; "moment-arm-invalid"
[[nodiscard]] std::optional<MuscleAttachment> muscle_of(const LoadRequest& request);

}  // namespace jointrom
