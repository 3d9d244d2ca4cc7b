#pragma once

/// \file
/// Everything that a user can choose about how a recording is read, turned into an angle and measured. One catalogue
/// gives each setting its name; command line options, settings files and the settings that a result reports all come
/// from it.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// What is unset is found out from the recording, or left at the default of the module that uses it.
struct Settings {
    // How the file is read.
    std::string time_column, angle_column;
    std::vector<std::pair<std::string, std::string>> emg_columns;  ///< (name, column)
    Hertz rate;                                                    ///< of all channels
    std::vector<std::pair<std::string, Hertz>> channel_rates;
    std::string angle_unit;
    std::vector<double> missing_values;
    std::optional<std::size_t> trial;
    std::optional<char> delimiter, decimal_mark;

    // Which joint.
    std::string joint, motion;
    Side side = Side::unknown;

    // How the reading becomes an angle.
    std::string calibration_file;
    TimeWindow neutral_window;
    Degrees neutral_reading;
    std::string neutral_file;
    std::optional<bool> mirror;
    Hertz lowpass;  ///< unset: the default of PreparationOptions
    bool lowpass_auto = false, lowpass_off = false;
    TimeWindow window;
    Degrees sensor_u;
    Seconds longest_bridge;

    // What counts as still and as a movement.
    Seconds hold;
    DegreesPerSecond still_speed;
    Degrees prominence;
};

enum class SettingGroup { reading, joint, angle, stillness, movement };

/// One setting by name.
struct SettingKind {
    std::string_view name;  ///< as an option without dashes, "lowpass-hz"; as a key of JSON, "lowpass_hz"
    SettingGroup group;
    std::string_view value;  ///< what stands behind the option in its help; empty for a switch
    std::string_view help;
    bool repeatable;  ///< each further value adds to the ones before
    /// \throws Failure usage "setting-invalid"
    void (*set)(Settings& settings, std::string_view text);
    /// The value in force, empty when it is unset.
    std::string (*text)(const Settings& settings);

    [[nodiscard]] std::string key() const;
};

/// Every setting, in the order of the job.
[[nodiscard]] std::span<const SettingKind> setting_catalogue();

/// Applies a settings file: one JSON object, keys as SettingKind::key(), values texts, numbers, true/false, or lists of
/// them for settings that can be repeated.
/// \throws Failure missing_file "file-missing"; usage "settings-file-invalid" for anything that is not such an object,
///   with the nearest known key for an unknown one
void apply_settings_file(const std::filesystem::path& path, Settings& settings);

/// Name and value of every setting of the groups, in order; an unset one has an empty value.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> settings_in_force(const Settings& settings,
                                                                                 std::span<const SettingGroup> groups);

}  // namespace jointrom
