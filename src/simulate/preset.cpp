#include "core/setting_json.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/whole_file.hpp>
#include <jointrom/simulate/simulation_settings.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace jointrom {
namespace {

using Json = nlohmann::ordered_json;

[[noreturn]] void refuse(const std::string& text, std::string advice = {}) {
    throw Failure(FailureKind::usage, "preset-invalid", text, std::move(advice));
}

const SimulationSetting& setting_of(const std::string& key) {
    std::vector<std::string> keys;
    for (const SimulationSetting& setting : simulation_settings()) {
        keys.push_back(setting.key());
        if (keys.back() == key) {
            return setting;
        }
    }
    refuse(fmt::format("there is no setting {}", key), advice_for_unknown_key(key, keys));
}

std::string text_of(const std::string& key, const Json& value) {
    if (auto text = setting_text_of(value)) {
        return *std::move(text);
    }
    refuse(fmt::format("{} is {}, expected a text, a number, true, false or a list of them", key, value.dump()));
}

std::string joined(const std::string& key, const Json& list) {
    std::string text;
    for (const Json& entry : list) {
        text += (text.empty() ? "" : ",") + text_of(key, entry);
    }
    return text;
}

/// A list is several values of a setting that can be repeated, each of which may be a list, and else one value.
void add(const std::string& key, const Json& value, SimulationTexts& texts) {
    const SimulationSetting& setting = setting_of(key);
    if (value.is_array() && setting.repeatable) {
        for (const Json& entry : value) {
            texts.emplace_back(&setting, entry.is_array() ? joined(key, entry) : text_of(key, entry));
        }
        return;
    }
    texts.emplace_back(&setting, value.is_array() ? joined(key, value) : text_of(key, value));
}

SimulationTexts texts_of(const Json& object, std::string_view left_out = {}) {
    if (!object.is_object()) {
        refuse(fmt::format("{} is no object", object.dump().substr(0, 40)),
               "Write { \"joint\": \"elbow\" }, for instance.");
    }
    SimulationTexts texts;
    for (const auto& [key, value] : object.items()) {
        if (key != left_out) {
            add(key, value, texts);
        }
    }
    return texts;
}

std::vector<Simulation> simulations(const Json& root, const SimulationTexts& overruling) {
    const auto made = [&](SimulationTexts texts, const SimulationTexts& own) {
        texts.insert(texts.end(), own.begin(), own.end());
        texts.insert(texts.end(), overruling.begin(), overruling.end());
        Simulation simulation;
        apply_texts(texts, simulation);
        return simulation;
    };
    const SimulationTexts common = texts_of(root, "recordings");
    if (!root.contains("recordings")) {
        return {made(common, {})};
    }
    const Json& list = root["recordings"];
    if (!list.is_array() || list.empty()) {
        refuse("recordings is no list of objects", "Write \"recordings\": [{ \"side\": \"left\" }], for instance.");
    }
    std::vector<Simulation> result;
    for (const Json& entry : list) {
        try {
            result.push_back(made(common, texts_of(entry)));
        } catch (const Failure& failure) {
            throw Failure(failure.kind(), failure.code(),
                          fmt::format("recording {} of the list: {}", result.size() + 1, failure.what()),
                          failure.advice());
        }
    }
    return result;
}

}  // namespace

std::vector<Simulation> read_preset(const std::filesystem::path& path, const SimulationTexts& overruling) {
    const std::string text = read_whole_file(path, "preset file");
    try {
        return simulations(Json::parse(text), overruling);
    } catch (const Json::exception& error) {
        throw Failure(FailureKind::usage, "preset-invalid", why_not_read(error), {}, {path.string()});
    } catch (const Failure& failure) {
        throw failure.in_file(path.string());
    }
}

}  // namespace jointrom
