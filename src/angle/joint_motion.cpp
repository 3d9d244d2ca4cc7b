#include <jointrom/angle/joint_motion.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <vector>

namespace jointrom {
namespace embedded {
extern const std::string_view joints_json;  // data/joints.json
}

namespace {

struct Table {
    std::vector<JointMotion> motions;
    std::vector<std::vector<std::string>> also;  ///< further names a user may write, one list a motion
};

JointMotion motion_of(const nlohmann::json& entry) {
    const nlohmann::json& plausible = entry.at("plausible_deg");
    return {.joint = entry.at("joint"),
            .motion = entry.at("motion"),
            .positive = entry.at("positive"),
            .negative = entry.at("negative"),
            .neutral_posture = entry.at("neutral"),
            .plausible_min = Degrees(plausible.at(0).get<double>()),
            .plausible_max = Degrees(plausible.at(1).get<double>())};
}

const Table& table() {
    static const Table result = [] {
        Table built;
        const nlohmann::json parsed = nlohmann::json::parse(embedded::joints_json);
        for (const nlohmann::json& entry : parsed.at("motions")) {
            built.motions.push_back(motion_of(entry));
            built.also.push_back(entry.value("also", std::vector<std::string>{}));
        }
        return built;
    }();
    return result;
}

/// Small letters, with one hyphen for each run of blanks, '_', '/' and '-'.
std::string plain_name(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c == ' ' || c == '_' || c == '/' || c == '-') {
            if (!result.empty() && result.back() != '-') {
                result += '-';
            }
        } else {
            result += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
        }
    }
    while (result.ends_with('-')) {
        result.pop_back();
    }
    return result;
}

std::vector<std::string> names_of(std::size_t i) {
    const JointMotion& motion = table().motions[i];
    std::vector<std::string> names{motion.motion, motion.positive, motion.negative};
    names.insert(names.end(), table().also[i].begin(), table().also[i].end());
    return names;
}

[[noreturn]] void refuse(std::string_view code, const std::string& what, std::string_view typed,
                         const std::vector<std::string>& known) {
    std::string list;
    std::vector<std::string_view> views;
    for (const std::string& name : known) {
        list += (list.empty() ? "" : ", ") + name;
        views.push_back(name);
    }
    const auto meant = nearest(typed, views);
    throw Failure(FailureKind::usage, code, what + " '" + std::string(typed) + "'",
                  (meant ? "Did you mean '" + std::string(*meant) + "'? " : std::string()) + "Known: " + list + ".");
}

std::vector<std::string> joint_names() {
    std::vector<std::string> names;
    for (const JointMotion& motion : table().motions) {
        if (names.empty() || names.back() != motion.joint) {
            names.push_back(motion.joint);
        }
    }
    return names;
}

}  // namespace

std::string_view name_of(Side side) {
    switch (side) {
    case Side::left:
        return "left";
    case Side::right:
        return "right";
    case Side::unknown:
        break;
    }
    return "unknown";
}

Side side_named(std::string_view text) {
    const std::string name = plain_name(text);
    if (name == "left" || name == "l" || name == "lt") {
        return Side::left;
    }
    if (name == "right" || name == "r" || name == "rt") {
        return Side::right;
    }
    throw Failure(FailureKind::usage, "side-unknown", "no side is called '" + std::string(text) + "'",
                  "Write left or right.");
}

std::span<const JointMotion> joint_motions() {
    return table().motions;
}

const JointMotion& joint_motion(std::string_view joint, std::string_view motion) {
    const std::string joint_name = plain_name(joint);
    const std::string motion_name = plain_name(motion);
    const std::vector<JointMotion>& motions = table().motions;
    const auto first = std::ranges::find(motions, joint_name, &JointMotion::joint);
    if (first == motions.end()) {
        refuse("joint-unknown", "no joint is called", joint, joint_names());
    }
    if (motion_name.empty()) {
        return *first;
    }
    std::vector<std::string> known;
    for (auto i = static_cast<std::size_t>(first - motions.begin());
         i < motions.size() && motions[i].joint == joint_name; ++i) {
        for (std::string& name : names_of(i)) {
            if (plain_name(name) == motion_name) {
                return motions[i];
            }
            known.push_back(std::move(name));
        }
    }
    refuse("motion-unknown", "the " + first->joint + " has no motion called", motion, known);
}

const JointMotion& unknown_joint_motion() {
    static const JointMotion unknown{.joint = {},
                                     .motion = {},
                                     .positive = "positive",
                                     .negative = "negative",
                                     .neutral_posture = {},
                                     .plausible_min = {},
                                     .plausible_max = {}};
    return unknown;
}

}  // namespace jointrom
