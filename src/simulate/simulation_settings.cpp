#include "simulate/setting_readers.hpp"

#include <algorithm>

namespace jointrom {

std::string SimulationSetting::key() const {
    std::string key(name);
    std::ranges::replace(key, '-', '_');
    return key;
}

std::span<const SimulationSetting> simulation_settings() {
    static const std::vector<SimulationSetting> settings = [] {
        std::vector<SimulationSetting> all;
        for (const auto group : {who_settings(), movement_settings(), sensor_settings(), muscle_settings(),
                                 logger_settings(), people_settings()}) {
            all.insert(all.end(), group.begin(), group.end());
        }
        return all;
    }();
    return settings;
}

void apply_texts(const SimulationTexts& texts, Simulation& simulation) {
    for (const bool muscles_first : {true, false}) {
        for (const auto& [setting, text] : texts) {
            if ((setting->name == "emg") == muscles_first) {
                setting->set(simulation, setting->name, text);
            }
        }
    }
}

}  // namespace jointrom
