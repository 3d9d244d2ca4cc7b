#include "report/load_remarks.hpp"

#include <fmt/format.h>

namespace jointrom {
namespace {

std::string masses_in_words(const LoadModel& model) {
    std::string text;
    for (const HeldMass& held : model.masses) {
        text += fmt::format("{}{:.5g} kg at {:.4g} m", text.empty() ? "" : ", ", held.mass_kg, held.at_m);
    }
    return text.empty() ? "none" : text;
}

}  // namespace

std::vector<std::string> model_remarks(const JointMotion& motion, const LoadModel& model) {
    std::vector<std::string> remarks;
    if (model.limb.mass_kg > 0.0) {
        remarks.push_back(fmt::format("Limb: {}, {:.3g} kg, centre of mass {:.3g} m from the {} ({}).",
                                      model.limb.words, model.limb.mass_kg, model.limb.com_m, motion.joint,
                                      model.limb.source));
    } else {
        remarks.emplace_back("Limb: its own weight is left out.");
    }
    remarks.push_back(fmt::format("Load: {}.", masses_in_words(model)));
    remarks.push_back(fmt::format("In neutral the limb is {:.4g} deg from hanging, toward {}; it moves in a vertical "
                                  "plane; gravity {:.6g} m/s2{}.",
                                  model.from_hanging.value(), motion.positive, model.gravity_m_s2,
                                  model.with_inertia ? "" : "; acceleration left out"));
    remarks.push_back(fmt::format("A moment is positive where it asks for the {}, work where the muscles do it on the "
                                  "load.",
                                  muscles_toward(motion.positive)));
    return remarks;
}

std::string muscle_remark(std::string_view whose, const MuscleAttachment& muscle) {
    return fmt::format("Muscle force: of one muscle {}that does it alone, at a moment arm of {:.3g} m{}.",
                       whose.empty() ? std::string() : fmt::format("of the {}", whose), muscle.moment_arm_m(),
                       whose.empty() ? "" : " all the way");
}

}  // namespace jointrom
