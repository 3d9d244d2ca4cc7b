#include "cli/setting_options.hpp"

#include <jointrom/analysis/joint_choices.hpp>

#include <algorithm>

namespace jointrom::cli {
namespace {

std::string heading_of(SettingGroup group) {
    switch (group) {
    case SettingGroup::reading:
        return "Reading the file";
    case SettingGroup::joint:
        return "The joint";
    case SettingGroup::angle:
        return "From reading to angle";
    case SettingGroup::stillness:
        return "Postures held still";
    case SettingGroup::phases:
        return "Phases of movement";
    case SettingGroup::turning_points:
        return "Turning points";
    case SettingGroup::activity:
        return "Muscle activity";
    case SettingGroup::load:
        break;
    }
    return "Load on the joint";
}

}  // namespace

void SettingOptions::attach(OptionList& list, std::vector<SettingGroup> groups) {
    groups_ = std::move(groups);
    for (const SettingGroup group : groups_) {
        list.group(heading_of(group));
        for (const SettingKind& kind : setting_catalogue()) {
            if (kind.group != group) {
                continue;
            }
            if (kind.value.empty()) {
                list.on_or_off(kind.name, switches_[kind.name], kind.help);
            } else {
                list.values("--" + std::string(kind.name), texts_[kind.name], kind.value, kind.help)
                    .suggest(setting_choices(kind.name))
                    .suggest_of_joint(choices_by_joint(kind.name))
                    .otherwise(kind.text(Settings()))
                    .repeats(kind.repeatable);
            }
        }
    }
    list.group("Settings")
        .value("--settings", file_, "FILE", "settings as JSON, named as the options with _ for -; options overrule it");
}

Settings SettingOptions::settings() const {
    Settings result;
    if (!file_.empty()) {
        std::vector<std::string_view> typed;
        for (const auto& [name, texts] : texts_) {
            if (!texts.empty()) {
                typed.push_back(name);
            }
        }
        apply_settings_file(file_, result, typed);
    }
    for (const SettingKind& kind : setting_catalogue()) {
        if (const auto typed = texts_.find(kind.name); typed != texts_.end()) {
            for (const std::string& text : typed->second) {
                kind.set(result, text);  // of a setting that cannot be repeated, the last one stays
            }
        }
        if (const auto chosen = switches_.find(kind.name); chosen != switches_.end() && chosen->second) {
            kind.set(result, *chosen->second ? "true" : "false");
        }
    }
    if (!result.joint.empty()) {
        (void)joint_motion(result.joint, result.motion);  // refuses an unknown one before any file is opened
    }
    return result;
}

std::vector<std::pair<std::string, std::string>> SettingOptions::in_force(const Settings& settings) const {
    return settings_in_force(settings, groups_);
}

}  // namespace jointrom::cli
