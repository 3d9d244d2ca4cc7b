#include "analysis/setting_groups.hpp"
#include "analysis/setting_text.hpp"

#include <jointrom/core/number_text.hpp>

#include <array>
#include <cmath>

namespace jointrom {
namespace {

using Text = std::string_view;

std::string number_text(double value) {
    return std::isnan(value) ? std::string() : shortest_text(value);
}

void append(std::vector<double>& values, const std::vector<double>& more) {
    values.insert(values.end(), more.begin(), more.end());
}

std::string numbers_text(const std::vector<double>& values) {
    std::string text;
    for (const double value : values) {
        text += (text.empty() ? "" : ",") + shortest_text(value);
    }
    return text;
}

constexpr auto load = SettingGroup::load;

constexpr auto catalogue = std::to_array<SettingKind>({
    {"load-kg", load, "M", "mass of a load, held or strapped on, in kg", true,
     [](Settings& s, Text t) { append(s.load.load_kg, number_list_setting("load-kg", t, "2 or 2,0.5")); },
     [](const Settings& s) { return numbers_text(s.load.load_kg); }},
    {"load-at-m", load, "L", "its distance from the joint's axis, in m; one for each load", true,
     [](Settings& s, Text t) { append(s.load.load_at_m, number_list_setting("load-at-m", t, "0.32 or 0.32,0.1")); },
     [](const Settings& s) { return numbers_text(s.load.load_at_m); }},
    {"load-u-kg", load, "U", "standard uncertainty of a load's mass, in kg; otherwise 2 % at most", false,
     [](Settings& s, Text t) { s.load.load_u_kg = number_setting("load-u-kg", t); },
     [](const Settings& s) { return number_text(s.load.load_u_kg); }},
    {"load-at-u-m", load, "U", "standard uncertainty of its distance, in m; otherwise 0.01 m at most", false,
     [](Settings& s, Text t) { s.load.load_at_u_m = number_setting("load-at-u-m", t); },
     [](const Settings& s) { return number_text(s.load.load_at_u_m); }},
    {"body-mass-kg", load, "M", "mass of the body in kg, for the limb's own weight", false,
     [](Settings& s, Text t) { s.load.body.mass_kg = number_setting("body-mass-kg", t); },
     [](const Settings& s) { return number_text(s.load.body.mass_kg); }},
    {"height-m", load, "H", "height of the body, in m", false,
     [](Settings& s, Text t) { s.load.body.height_m = number_setting("height-m", t); },
     [](const Settings& s) { return number_text(s.load.body.height_m); }},
    {"segments", load, "SET", "parameters of the limb: winter, de-leva-female, de-leva-male, or none to leave it out",
     false, [](Settings& s, Text t) { s.load.segments = t; }, [](const Settings& s) { return s.load.segments; }},
    {"segment-kg", load, "M", "mass of the limb beyond the joint in kg, if it is known", false,
     [](Settings& s, Text t) { s.load.segment_kg = number_setting("segment-kg", t); },
     [](const Settings& s) { return number_text(s.load.segment_kg); }},
    {"segment-at-m", load, "L", "distance of its centre of mass from the joint, in m", false,
     [](Settings& s, Text t) { s.load.segment_at_m = number_setting("segment-at-m", t); },
     [](const Settings& s) { return number_text(s.load.segment_at_m); }},
    {"posture", load, "NAME", "how the near part is held: hanging, sitting, supine, ...; docs/methods/joint-load.md",
     false, [](Settings& s, Text t) { s.load.posture = t; }, [](const Settings& s) { return s.load.posture; }},
    {"posture-deg", load, "A", "the limb in neutral: degrees from hanging, in the positive direction of the motion",
     false, [](Settings& s, Text t) { s.load.posture_angle = Degrees(number_setting("posture-deg", t)); },
     [](const Settings& s) { return number_text(s.load.posture_angle.value()); }},
    {"posture-u-deg", load, "U", "standard uncertainty of that, in degrees", false,
     [](Settings& s, Text t) { s.load.posture_u = Degrees(number_setting("posture-u-deg", t)); },
     [](const Settings& s) { return quantity_text(s.load.posture_u); }},
    {"gravity-m-s2", load, "G", "gravity, in m/s2", false,
     [](Settings& s, Text t) { s.load.gravity_m_s2 = number_setting("gravity-m-s2", t); },
     [](const Settings& s) { return shortest_text(s.load.gravity_m_s2); }},
    {"quasi-static", load, "", "leave the acceleration out, as if held still", false,
     [](Settings& s, Text t) { s.load.quasi_static = switch_setting("quasi-static", t); },
     [](const Settings& s) { return std::string(s.load.quasi_static ? "true" : "false"); }},
    {"moment-arm-m", load, "R", "distance at which a muscle pulls, in m, such as 0.04; adds its force", false,
     [](Settings& s, Text t) { s.load.moment_arm_m = number_setting("moment-arm-m", t); },
     [](const Settings& s) { return number_text(s.load.moment_arm_m); }},
    {"pull-deg", load, "A", "angle between muscle and bone, in degrees; adds the force in the joint", false,
     [](Settings& s, Text t) { s.load.pull = Degrees(number_setting("pull-deg", t)); },
     [](const Settings& s) { return number_text(s.load.pull.value()); }},
});

}  // namespace

std::span<const SettingKind> load_settings() {
    return catalogue;
}

}  // namespace jointrom
