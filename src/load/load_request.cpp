#include <jointrom/load/load_request.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <cmath>

namespace jointrom {
namespace {

[[noreturn]] void refuse(std::string_view code, const std::string& text, std::string advice) {
    throw Failure(FailureKind::usage, code, text, std::move(advice));
}

Limb limb_of(const JointMotion& motion, const LoadRequest& request) {
    const bool has_mass = !std::isnan(request.segment_kg);
    if (has_mass != !std::isnan(request.segment_at_m)) {
        refuse("load-incomplete",
               has_mass ? "a limb of known mass needs the distance of its centre of mass"
                        : "a limb's centre of mass needs its mass",
               "Give both --segment-kg and --segment-at-m.");
    }
    if (has_mass) {
        return stated_limb(request.segment_kg, request.segment_at_m);
    }
    return request.segments == "none" ? Limb{} : limb_beyond(motion, request.body, request.segments);
}

std::vector<HeldMass> masses_of(const LoadRequest& request) {
    if (request.load_kg.size() != request.load_at_m.size()) {
        refuse("load-incomplete",
               fmt::format("loads: {}, distances: {}, expected a distance for each load", request.load_kg.size(),
                           request.load_at_m.size()),
               "Give --load-at-m for each --load-kg: metres from the joint's axis to the middle of the load.");
    }
    if (request.load_u_kg < 0.0 || request.load_at_u_m < 0.0) {
        refuse("uncertainty-negative", "a negative uncertainty of the load", "Give 0 or more.");
    }
    std::vector<HeldMass> masses;
    for (std::size_t i = 0; i < request.load_kg.size(); ++i) {
        HeldMass held = held_mass(request.load_kg[i], request.load_at_m[i]);
        held.u_mass_kg = std::isnan(request.load_u_kg) ? held.u_mass_kg : request.load_u_kg;
        held.u_at_m = std::isnan(request.load_at_u_m) ? held.u_at_m : request.load_at_u_m;
        masses.push_back(held);
    }
    return masses;
}

Degrees from_hanging(const JointMotion& motion, const LoadRequest& request, Findings& findings) {
    const Posture& posture = posture_named(motion, request.posture);
    if (request.posture_angle.is_set()) {
        if (!request.posture.empty()) {
            refuse("posture-twice", "--posture and --posture-deg both say how the near part is held",
                   "Give one of them.");
        }
        return request.posture_angle;
    }
    if (request.posture.empty()) {
        findings.emplace_back("posture-assumed", fmt::format("posture {}: {}", posture.name, posture.words));
    }
    return posture.from_hanging;
}

}  // namespace

LoadModel load_model(const JointMotion& motion, const LoadRequest& request, Findings& findings) {
    LoadModel model;
    model.from_hanging = from_hanging(motion, request, findings);
    model.masses = masses_of(request);
    model.limb = limb_of(motion, request);
    if (model.first_moment_kg_m() <= 0.0) {
        refuse("load-empty", "nothing hangs on the joint: there is neither a limb nor a load",
               "Give --load-kg and --load-at-m, or --body-mass-kg and --height-m.");
    }
    if (!(request.posture_u >= Degrees(0.0))) {
        refuse("uncertainty-negative", "a negative uncertainty of the posture", "Give 0 or more.");
    }
    if (!(request.gravity_m_s2 >= 1.0 && request.gravity_m_s2 <= 30.0)) {
        refuse("gravity-implausible",
               fmt::format("gravity of {} m/s2, expected 1 to 30", shortest_text(request.gravity_m_s2)),
               "Leave --gravity-m-s2 out, or give 9.80 or 9.81 as a textbook does.");
    }
    model.u_from_hanging = request.posture_u;
    model.gravity_m_s2 = request.gravity_m_s2;
    model.with_inertia = !request.quasi_static;
    return model;
}

std::optional<MuscleAttachment> muscle_of(const LoadRequest& request) {
    if (!std::isnan(request.moment_arm_m)) {
        return muscle_attachment(request.moment_arm_m, request.pull);
    }
    if (request.pull.is_set()) {
        refuse("moment-arm-missing", "--pull-deg needs --moment-arm-m",
               "Say how far from the joint the muscle takes hold, such as --moment-arm-m 0.04.");
    }
    return std::nullopt;
}

}  // namespace jointrom
