#include <jointrom/analysis/joint_choices.hpp>
#include <jointrom/analysis/settings.hpp>

#include <algorithm>
#include <array>
#include <initializer_list>

namespace jointrom {
namespace {

struct Choices {
    std::string_view name;
    std::initializer_list<std::string_view> texts;
};

const std::initializer_list<Choices> choice_lists = {
    {"angle-unit", {"deg", "rad", "V", "mV", "counts"}},
    {"decimal", {"point", "comma"}},
    {"delimiter", {"comma", "semicolon", "tab", "bar", "blanks"}},
    {"emg-band-hz", {"auto", "off"}},
    {"emg-form", {"raw", "rectified", "envelope", "auto"}},
    {"lowpass-hz", {"auto", "off"}},
    {"mains-hz", {"50", "60", "auto", "off"}},
    {"normalise", {"peak", "none"}},
    {"onset", {"envelope", "teager-kaiser"}},
    {"segments", {"winter", "de-leva-female", "de-leva-male", "none"}},
    {"side", {"left", "right"}},
};

void add_once(const std::string& name, std::vector<std::string>& names) {
    if (!name.empty() && std::ranges::find(names, name) == names.end()) {
        names.push_back(name);
    }
}

std::vector<std::string> words_of_all_joints(std::string_view name) {
    std::vector<std::string> words;
    for (const auto& [joint, of_joint] : choices_by_joint(name)) {
        for (const std::string& word : of_joint) {
            add_once(word, words);
        }
    }
    std::ranges::sort(words);
    return words;
}

}  // namespace

std::vector<std::string> joint_choices() {
    std::vector<std::string> names;
    for (const JointMotion& motion : joint_motions()) {
        add_once(motion.joint, names);
    }
    return names;
}

std::vector<std::string> direction_choices() {
    std::vector<std::string> names;
    for (const JointMotion& motion : joint_motions()) {
        add_once(motion.positive, names);
        add_once(motion.negative, names);
    }
    std::ranges::sort(names);
    return names;
}

std::vector<std::string> motion_choices() {
    return words_of_all_joints("motion");
}

std::vector<std::string> setting_choices(std::string_view name) {
    if (name == "joint") {
        return joint_choices();
    }
    if (name == "motion" || name == "posture") {
        return words_of_all_joints(name);
    }
    if (name == "resists") {
        return direction_choices();
    }
    for (const Choices& list : choice_lists) {
        if (list.name == name) {
            return {list.texts.begin(), list.texts.end()};
        }
    }
    return {};
}

}  // namespace jointrom
