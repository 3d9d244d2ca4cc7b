#include <jointrom/load/limb.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/core/uncertainty.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>
#include <vector>

namespace jointrom {
namespace embedded {
extern const std::string_view segments_json;  // data/segments.json
}

namespace {

/// One segment, in shares of the body's mass and of its height.
struct Segment {
    std::string name;
    double mass, length, com, gyration;
};

struct SetData {
    double u_mass, u_com;
    std::map<std::string, std::vector<Segment>> limbs;  // by joint
};

struct Parameters {
    std::vector<SegmentSet> sets;
    std::vector<SetData> data;                                                     // one a set
    std::map<std::pair<std::string, std::string>, std::vector<Posture>> postures;  // by joint and motion
};

std::vector<Segment> segments_of(const nlohmann::json& limb, double stature_mm) {
    std::vector<Segment> segments;
    for (const nlohmann::json& entry : limb.at("segments")) {
        const double length = entry.at("length_mm").get<double>() / stature_mm;
        segments.push_back({.name = entry.at("name"),
                            .mass = entry.at("mass"),
                            .length = length,
                            .com = entry.at("com").get<double>() * length,
                            .gyration = entry.at("gyration").get<double>() * length});
    }
    return segments;
}

const Parameters& parameters() {
    static const Parameters result = [] {
        Parameters built;
        const nlohmann::json parsed = nlohmann::json::parse(embedded::segments_json);
        for (const nlohmann::json& set : parsed.at("sets")) {
            built.sets.push_back({set.at("name"), set.at("source"), set.at("short")});
            SetData& data = built.data.emplace_back(SetData{set.at("u_mass"), set.at("u_com"), {}});
            for (const nlohmann::json& limb : set.at("limbs")) {
                data.limbs[limb.at("joint")] = segments_of(limb, set.at("stature_mm"));
            }
        }
        for (const nlohmann::json& posture : parsed.at("postures")) {
            built.postures[{posture.at("joint"), posture.at("motion")}].push_back(
                {posture.at("name"), posture.at("words"), Degrees(posture.at("hanging_deg").get<double>())});
        }
        return built;
    }();
    return result;
}

std::string listed(const std::vector<std::string_view>& names) {
    return fmt::format("{}", fmt::join(names, ", "));
}

[[noreturn]] void refuse_name(std::string_view code, std::string_view what, std::string_view typed,
                              const std::vector<std::string_view>& known) {
    const auto meant = nearest(typed, known);
    throw Failure(FailureKind::usage, code, fmt::format("{} '{}'", what, typed),
                  (meant ? fmt::format("Did you mean '{}'? ", *meant) : std::string()) + "Known: " + listed(known) +
                      ".");
}

[[noreturn]] void refuse_joint(const JointMotion& motion) {
    if (!motion.is_known()) {
        throw Failure(FailureKind::usage, "load-joint", "the load needs to know which joint this is", "Give --joint.");
    }
    std::string known;
    for (const auto& [key, postures] : parameters().postures) {
        known += fmt::format("{}{} {}", known.empty() ? "" : ", ", key.first, key.second);
    }
    throw Failure(FailureKind::usage, "load-joint",
                  fmt::format("no load can be given for {} {}: the parameters of what hangs on it are not known, or it "
                              "turns about its own length",
                              motion.joint, motion.motion),
                  "Possible: " + known + ".");
}

void require_plausible(const BodySize& body) {
    if (std::isnan(body.mass_kg) || std::isnan(body.height_m)) {
        throw Failure(
            FailureKind::usage, "body-size-missing",
            fmt::format("the limb's own weight needs the body's {}",
                        std::isnan(body.mass_kg) ? std::isnan(body.height_m) ? "mass and height" : "mass" : "height"),
            "Give --body-mass-kg and --height-m; or --segment-kg and --segment-at-m if they are known; or "
            "--segments none to leave the limb's weight out.");
    }
    if (!(body.mass_kg >= 2.0 && body.mass_kg <= 400.0)) {
        throw Failure(FailureKind::usage, "body-size-implausible",
                      fmt::format("a body mass of {} kg, expected 2 to 400", shortest_text(body.mass_kg)),
                      "Give it in kilograms.");
    }
    if (!(body.height_m >= 0.4 && body.height_m <= 2.6)) {
        throw Failure(FailureKind::usage, "body-size-implausible",
                      fmt::format("a height of {} m, expected 0.4 to 2.6", shortest_text(body.height_m)),
                      body.height_m >= 40.0 && body.height_m <= 260.0
                          ? fmt::format("Give it in metres: {}.", shortest_text(body.height_m / 100.0))
                          : std::string("Give it in metres."));
    }
}

const SetData& set_named(std::string_view name) {
    const std::vector<SegmentSet>& sets = parameters().sets;
    const auto found = std::ranges::find(sets, name, &SegmentSet::name);
    if (found == sets.end()) {
        std::vector<std::string_view> known;
        for (const SegmentSet& set : sets) {
            known.push_back(set.name);
        }
        refuse_name("segment-set-unknown", "no set of segment parameters is called", name, known);
    }
    return parameters().data[static_cast<std::size_t>(found - sets.begin())];
}

/// "upper arm, forearm and hand"
std::string in_words(const std::vector<Segment>& segments) {
    std::string text;
    for (std::size_t i = 0; i < segments.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == segments.size() ? " and " : ", ") + segments[i].name;
    }
    return text;
}

}  // namespace

std::span<const SegmentSet> segment_sets() {
    return parameters().sets;
}

Limb limb_beyond(const JointMotion& motion, BodySize body, std::string_view set) {
    const SetData& data = set_named(set);
    const auto segments = data.limbs.find(motion.joint);
    if (postures_of(motion).empty() || segments == data.limbs.end()) {
        refuse_joint(motion);
    }
    require_plausible(body);
    Limb limb{.words = in_words(segments->second),
              .source = std::ranges::find(parameters().sets, set, &SegmentSet::name)->brief,
              .u_mass_relative = data.u_mass,
              .u_com_relative = data.u_com};
    double start = 0.0;
    double moment = 0.0;
    for (const Segment& segment : segments->second) {
        const double mass_kg = segment.mass * body.mass_kg;
        const double com_m = (start + segment.com) * body.height_m;
        limb.mass_kg += mass_kg;
        moment += mass_kg * com_m;
        limb.inertia_kg_m2 += mass_kg * (com_m * com_m + std::pow(segment.gyration * body.height_m, 2));
        start += segment.length;
    }
    limb.com_m = moment / limb.mass_kg;
    return limb;
}

Limb stated_limb(double mass_kg, double com_m) {
    const auto refuse = [](const char* what, double value, const char* unit, double most) {
        throw Failure(FailureKind::usage, "segment-invalid",
                      fmt::format("{} of {} {}, expected more than 0 and at most {}", what, shortest_text(value), unit,
                                  shortest_text(most)),
                      "Give --segment-kg in kilograms and --segment-at-m, from the joint to the limb's centre of mass, "
                      "in metres.");
    };
    if (!(mass_kg > 0.0 && mass_kg <= 100.0)) {
        refuse("a limb", mass_kg, "kg", 100.0);
    }
    if (!(com_m > 0.0 && com_m <= 2.0)) {
        refuse("a centre of mass at a distance", com_m, "m", 2.0);
    }
    return {.words = "all beyond the joint",
            .source = "as stated",
            .mass_kg = mass_kg,
            .com_m = com_m,
            .inertia_kg_m2 = 4.0 / 3.0 * mass_kg * com_m * com_m,
            .u_mass_relative = rectangular_u(0.02),
            .u_com_relative = rectangular_u(0.01) / com_m};
}

std::span<const Posture> postures_of(const JointMotion& motion) {
    const auto found = parameters().postures.find({motion.joint, motion.motion});
    return found == parameters().postures.end() ? std::span<const Posture>() : found->second;
}

const Posture& posture_named(const JointMotion& motion, std::string_view name) {
    const std::span<const Posture> postures = postures_of(motion);
    if (postures.empty()) {
        refuse_joint(motion);
    }
    if (name.empty()) {
        return postures.front();
    }
    const auto found = std::ranges::find(postures, name, &Posture::name);
    if (found == postures.end()) {
        std::vector<std::string_view> known;
        for (const Posture& posture : postures) {
            known.push_back(posture.name);
        }
        refuse_name("posture-unknown", fmt::format("the {} has no posture called", motion.joint), name, known);
    }
    return *found;
}

std::string muscles_toward(std::string_view direction) {
    constexpr std::string_view ending = "ion";
    return direction.ends_with(ending) ? fmt::format("{}ors", direction.substr(0, direction.size() - ending.size()))
                                       : fmt::format("{} muscles", direction);
}

}  // namespace jointrom
