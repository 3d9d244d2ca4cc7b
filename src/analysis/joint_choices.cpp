#include <jointrom/analysis/joint_choices.hpp>
#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/load/limb.hpp>

#include <algorithm>

namespace jointrom {

std::map<std::string, std::vector<std::string>> choices_by_joint(std::string_view name) {
    std::map<std::string, std::vector<std::string>> choices;
    for (const JointMotion& motion : joint_motions()) {
        std::vector<std::string>& words = choices[motion.joint];
        if (name == "motion") {
            words.insert(words.end(), {motion.motion, motion.positive, motion.negative});
        } else if (name == "posture") {
            std::ranges::transform(postures_of(motion), std::back_inserter(words), &Posture::name);
        }
    }
    for (auto& [joint, words] : choices) {
        std::ranges::sort(words);
        words.erase(std::unique(words.begin(), words.end()), words.end());
    }
    std::erase_if(choices, [](const auto& of_joint) { return of_joint.second.empty(); });
    return choices;
}

}  // namespace jointrom
