#include "core/setting_json.hpp"

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>

namespace jointrom {
namespace {

using Json = nlohmann::json;

[[noreturn]] void refuse(const std::string& text, std::string advice = {}) {
    throw Failure(FailureKind::usage, "settings-file-invalid", text, std::move(advice));
}

const SettingKind& kind_of(const std::string& key) {
    std::vector<std::string> keys;
    for (const SettingKind& kind : setting_catalogue()) {
        if (kind.key() == key) {
            return kind;
        }
        keys.push_back(kind.key());
    }
    refuse(fmt::format("there is no setting {}", key), advice_for_unknown_key(key, keys));
}

std::string text_of(const std::string& key, const Json& value) {
    if (auto text = setting_text_of(value)) {
        return *std::move(text);
    }
    refuse(fmt::format("{} is {}, expected a text, a number, true or false", key, value.dump()));
}

void apply(const std::string& key, const Json& value, Settings& settings) {
    const SettingKind& kind = kind_of(key);
    if (!value.is_array()) {
        kind.set(settings, text_of(key, value));
        return;
    }
    if (!kind.repeatable) {
        refuse(fmt::format("{} is a list, expected one value", key));
    }
    for (const Json& entry : value) {
        kind.set(settings, text_of(key, entry));
    }
}

}  // namespace

void apply_settings_file(const std::filesystem::path& path, Settings& settings,
                         std::span<const std::string_view> overruled) {
    const std::string text = read_whole_file(path, "settings file");
    try {
        const Json root = Json::parse(text);
        if (!root.is_object()) {
            refuse("the file is no JSON object", "Write { \"joint\": \"elbow\" }, for instance.");
        }
        Settings ignored;
        for (const auto& [key, value] : root.items()) {
            if (value.is_null()) {
                continue;  // left to the program, as in the settings of a result
            }
            const bool holds = std::ranges::find(overruled, kind_of(key).name) == overruled.end();
            apply(key, value, holds ? settings : ignored);
        }
    } catch (const Json::exception& error) {
        throw Failure(FailureKind::usage, "settings-file-invalid", why_not_read(error), {}, {path.string()});
    } catch (const Failure& failure) {
        throw failure.in_file(path.string());
    }
}

}  // namespace jointrom
