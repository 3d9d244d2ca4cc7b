#pragma once

/// \file
/// What can be said of a simulation, by name: options of the command and keys of a preset file.

#include <jointrom/simulate/simulation.hpp>

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

enum class SimulationGroup { who, movement, sensor, muscles, logger, people };

struct SimulationSetting {
    std::string_view name;  ///< as an option without dashes, "top-deg"; as a key of JSON, "top_deg"
    SimulationGroup group;
    std::string_view value;  ///< what stands behind the option in its help; empty for a switch
    std::string_view help;
    bool repeatable;  ///< each further value adds to the ones before
    /// \param name of the setting, which what is said of a wrong text names \throws Failure usage "setting-invalid"
    void (*set)(Simulation& simulation, std::string_view name, std::string_view text);

    [[nodiscard]] std::string key() const;
};

[[nodiscard]] std::span<const SimulationSetting> simulation_settings();

/// Name of a setting and what to set it to, in order.
using SimulationTexts = std::vector<std::pair<const SimulationSetting*, std::string>>;

/// Sets all that `texts` say. Muscles are made by `emg`, so settings of a muscle come after it, whatever the order.
/// \throws Failure usage "setting-invalid", "muscle-unknown"
void apply_texts(const SimulationTexts& texts, Simulation& simulation);

/// The recordings that a preset file describes: a JSON object with settings for all of them, and under "recordings" a
/// list of objects with settings of their own.
///
/// \param overruling what is set last, in each of them
/// \throws Failure missing_file "file-missing"; usage "preset-invalid" with the place, and the nearest known key for an
///   unknown one; and as apply_texts()
[[nodiscard]] std::vector<Simulation> read_preset(const std::filesystem::path& path, const SimulationTexts& overruling);

}  // namespace jointrom
