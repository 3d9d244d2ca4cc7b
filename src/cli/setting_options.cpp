#include "cli/setting_options.hpp"

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
        break;
    }
    return "Turning points";
}

}  // namespace

void SettingOptions::attach(CLI::App& app, std::vector<SettingGroup> groups) {
    groups_ = std::move(groups);
    for (const SettingKind& kind : setting_catalogue()) {
        if (std::ranges::find(groups_, kind.group) == groups_.end()) {
            continue;
        }
        const std::string name = "--" + std::string(kind.name);
        CLI::Option* option = nullptr;
        if (kind.value.empty()) {
            // --mirror and --no-mirror; neither leaves it to the program.
            const std::string both = name + ",!--no-" + std::string(kind.name);
            option = app.add_flag(both, switches_[kind.name], std::string(kind.help));
            switch_options_[kind.name] = option;
        } else {
            option = app.add_option(name, texts_[kind.name], std::string(kind.help))
                         ->type_name(std::string(kind.value))
                         ->allow_extra_args(false);
            option->multi_option_policy(kind.repeatable ? CLI::MultiOptionPolicy::TakeAll
                                                        : CLI::MultiOptionPolicy::TakeLast);
        }
        option->group(heading_of(kind.group));
    }
    app.add_option("--settings", file_, "settings as JSON, named as the options with _ for -; options overrule it")
        ->type_name("FILE")
        ->group("Settings");
}

Settings SettingOptions::settings() const {
    Settings result;
    if (!file_.empty()) {
        apply_settings_file(file_, result);
    }
    for (const SettingKind& kind : setting_catalogue()) {
        if (const auto typed = texts_.find(kind.name); typed != texts_.end()) {
            for (const std::string& text : typed->second) {
                kind.set(result, text);
            }
        }
        if (const auto option = switch_options_.find(kind.name);
            option != switch_options_.end() && option->second->count() > 0) {
            kind.set(result, switches_.at(kind.name) ? "true" : "false");
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
