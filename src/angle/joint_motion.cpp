#include <jointrom/angle/joint_motion.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cassert>
#include <utility>
#include <vector>

namespace jointrom {
namespace embedded {
extern const std::string_view joints_json;  // data/joints.json
}

namespace {

/// A name that a user may write, and what it means.
struct PartName {
    std::string text;
    MotionPart part;
};

struct Table {
    std::vector<JointMotion> motions;
    std::vector<std::vector<PartName>> names;  ///< one list a motion, its own names first
    std::vector<std::pair<std::string, std::string>>
        synonyms;  ///< further name of a joint, in plain form; its own name
};

Degrees degrees_at(const nlohmann::json& entry, const char* key) {
    return entry.contains(key) ? Degrees(entry.at(key).get<double>()) : Degrees();
}

void read_conventions(const nlohmann::json& entry, JointMotion& motion) {
    if (const auto isb = entry.find("isb"); isb != entry.end()) {
        motion.isb = {.positive = isb->at("positive"), .zero = isb->value("zero", ""), .basis = isb->at("basis")};
    }
    if (const auto error = entry.find("typical_error"); error != entry.end()) {
        motion.typical_error = {
            .value = degrees_at(*error, "deg"), .what = error->at("what"), .source = error->at("source")};
    }
    if (const auto change = entry.find("detectable_change"); change != entry.end()) {
        motion.detectable_change = {.positive = degrees_at(*change, "positive_deg"),
                                    .negative = degrees_at(*change, "negative_deg"),
                                    .arc = degrees_at(*change, "arc_deg"),
                                    .what = change->at("what"),
                                    .source = change->at("source")};
    }
}

JointMotion motion_of(const nlohmann::json& entry) {
    const nlohmann::json& plausible = entry.at("plausible_deg");
    JointMotion motion{.joint = entry.at("joint"),
                       .motion = entry.at("motion"),
                       .positive = entry.at("positive"),
                       .negative = entry.at("negative"),
                       .neutral_posture = entry.at("neutral"),
                       .plausible_min = Degrees(plausible.at(0).get<double>()),
                       .plausible_max = Degrees(plausible.at(1).get<double>())};
    read_conventions(entry, motion);
    return motion;
}

std::vector<PartName> names_of(const nlohmann::json& entry, const JointMotion& motion) {
    std::vector<PartName> names{{motion.motion, MotionPart::arc},
                                {motion.positive, MotionPart::positive},
                                {motion.negative, MotionPart::negative}};
    const nlohmann::json also = entry.value("also", nlohmann::json::object());
    for (const auto& [key, part] : {std::pair{"motion", MotionPart::arc}, std::pair{"positive", MotionPart::positive},
                                    std::pair{"negative", MotionPart::negative}}) {
        for (const std::string& name : also.value(key, std::vector<std::string>{})) {
            names.push_back({name, part});
        }
    }
    return names;
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

const Table& table() {
    static const Table result = [] {
        Table built;
        const nlohmann::json parsed = nlohmann::json::parse(embedded::joints_json);
        for (const nlohmann::json& entry : parsed.at("motions")) {
            built.motions.push_back(motion_of(entry));
            built.names.push_back(names_of(entry, built.motions.back()));
        }
        for (const auto& [joint, names] : parsed.at("joint_names").items()) {
            for (const nlohmann::json& name : names) {
                built.synonyms.emplace_back(plain_name(name.get<std::string>()), joint);
            }
        }
        return built;
    }();
    return result;
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

/// Index of the principal motion.
std::size_t first_motion_of(std::string_view joint) {
    const std::string name = plain_name(joint);
    const auto synonym = std::ranges::find(table().synonyms, name, &std::pair<std::string, std::string>::first);
    const std::string wanted = synonym == table().synonyms.end() ? name : plain_name(synonym->second);
    const auto first = std::ranges::find_if(
        table().motions, [&](const JointMotion& motion) { return plain_name(motion.joint) == wanted; });
    if (first == table().motions.end()) {
        refuse("joint-unknown", "no joint is called", joint, joint_names());
    }
    return static_cast<std::size_t>(first - table().motions.begin());
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

std::optional<MotionPart> find_part(const JointMotion& motion, std::string_view name) {
    const std::string wanted = plain_name(name);
    const std::vector<JointMotion>& motions = table().motions;
    for (std::size_t i = 0; i < motions.size(); ++i) {
        if (motions[i].joint == motion.joint && motions[i].motion == motion.motion) {
            const std::vector<PartName>& names = table().names[i];
            const auto found = std::ranges::find_if(
                names, [&](const PartName& candidate) { return plain_name(candidate.text) == wanted; });
            return found == names.end() ? std::nullopt : std::optional(found->part);
        }
    }
    return std::nullopt;
}

NamedPart motion_part(std::string_view joint, std::string_view motion) {
    const std::vector<JointMotion>& motions = table().motions;
    const std::size_t first = first_motion_of(joint);
    std::vector<std::string> known;
    for (std::size_t i = first; i < motions.size() && motions[i].joint == motions[first].joint; ++i) {
        if (const auto part = find_part(motions[i], motion)) {
            return {&motions[i], *part};
        }
        for (const PartName& name : table().names[i]) {
            known.push_back(name.text);
        }
    }
    refuse("motion-unknown", "the " + motions[first].joint + " has no motion called", motion, known);
}

const JointMotion& joint_motion(std::string_view joint, std::string_view motion) {
    return plain_name(motion).empty() ? table().motions[first_motion_of(joint)] : *motion_part(joint, motion).motion;
}

const std::string& name_of(MotionPart part, const JointMotion& motion) {
    switch (part) {
    case MotionPart::positive:
        return motion.positive;
    case MotionPart::negative:
        return motion.negative;
    case MotionPart::arc:
        break;
    }
    return motion.motion;
}

Degrees DetectableChange::of(MotionPart part) const noexcept {
    switch (part) {
    case MotionPart::positive:
        return positive;
    case MotionPart::negative:
        return negative;
    case MotionPart::arc:
        break;
    }
    return arc;
}

Degrees extent_of_angle(Degrees angle, MotionPart part) {
    assert(part != MotionPart::arc);
    return part == MotionPart::negative ? -angle : angle;
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
