#pragma once

/// \file
/// The limb beyond a joint as a body with mass: from published segment parameters (data/segments.json, built into the
/// library), or as stated.

#include <jointrom/angle/joint_motion.hpp>

#include <limits>
#include <span>
#include <string>
#include <string_view>

namespace jointrom {

/// All that is beyond a joint, held straight, as one rigid body.
struct Limb {
    std::string words;   ///< e.g. "forearm and hand"; empty when the limb's own weight is left out
    std::string source;  ///< of the parameters, for print
    double mass_kg = 0.0;
    double com_m = 0.0;            ///< from the joint's axis to the centre of mass
    double inertia_kg_m2 = 0.0;    ///< about the joint's axis
    double u_mass_relative = 0.0;  ///< standard uncertainty for one person, as a share
    double u_com_relative = 0.0;   ///< likewise, of every distance along the limb
};

struct BodySize {
    double mass_kg = std::numeric_limits<double>::quiet_NaN();
    double height_m = std::numeric_limits<double>::quiet_NaN();
};

/// A published table of segment parameters.
struct SegmentSet {
    std::string name;    ///< e.g. "winter"
    std::string source;  ///< in full
    std::string brief;   ///< in a few words
};

/// The sets that are built in: winter, de-leva-female, de-leva-male.
[[nodiscard]] std::span<const SegmentSet> segment_sets();

/// The limb beyond a joint of somebody of that size.
///
/// Method: the segments stand in line from the joint outwards, each with its share of the body's mass and lengths in
/// proportion to the height; moments of inertia by the parallel axis theorem.
/// \param body 2 to 400 kg, 0.4 to 2.6 m
/// \throws Failure usage "segment-set-unknown"; "body-size-missing", "body-size-implausible"; "load-joint" for a joint
///   whose limb is not in the table, or a motion that turns about the limb's own length
/// \par Reference Winter 2005, table 3.1; de Leva 1996, J Biomech 29:1223, table 4
[[nodiscard]] Limb limb_beyond(const JointMotion& motion, BodySize body, std::string_view set);

/// A limb of which mass and centre of mass are known. Its moment of inertia is that of a uniform rod whose middle is
/// the centre of mass; the uncertainties are rectangular, 2 % of the mass and 0.01 m (common practice, no source).
/// \throws Failure usage "segment-invalid" unless both are positive and plausible (100 kg, 2 m)
[[nodiscard]] Limb stated_limb(double mass_kg, double com_m);

/// How the part of the body on the near side of the joint is held, and so where the limb points in neutral.
struct Posture {
    std::string name;      ///< e.g. "hanging"
    std::string words;     ///< e.g. "upper arm hanging"
    Degrees from_hanging;  ///< of the limb in neutral, from straight down, in the positive direction of the motion
};

/// The named postures for a motion, the usual one first; empty when its loads cannot be given.
[[nodiscard]] std::span<const Posture> postures_of(const JointMotion& motion);

/// The posture of that name; an empty name gives the usual one.
/// \throws Failure usage "load-joint", or "posture-unknown" with the names that are known
[[nodiscard]] const Posture& posture_named(const JointMotion& motion, std::string_view name);

/// The muscles that move a joint in a direction: "flexors" for "flexion".
[[nodiscard]] std::string muscles_toward(std::string_view direction);

}  // namespace jointrom
