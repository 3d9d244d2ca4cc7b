#pragma once

/// \file
/// Everything that a user can choose about how a recording is read, turned into an angle and measured. One catalogue
/// gives each setting its name; command line options, settings files and the settings that a result reports all come
/// from it.

#include <jointrom/angle/prepare_angle.hpp>
#include <jointrom/emg/activity.hpp>
#include <jointrom/load/load_request.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/still_postures.hpp>
#include <jointrom/movement/turning_points.hpp>
#include <jointrom/recording/read_recording.hpp>

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// What is unset is found out from the recording.
struct Settings {
    ReadingOptions reading;
    std::string joint, motion;  ///< names as typed
    std::string calibration_file, neutral_file;
    PreparationOptions preparation;  ///< its motion, calibration and unit are filled in when a recording is prepared
    StillPostureOptions stillness;
    PhaseOptions phases;
    TurningPointOptions turning_points;
    ActivityOptions activity;  ///< its maxima are filled in when a recording is measured
    LoadRequest load;
    std::vector<std::string> maxima;  ///< "[NAME=]VALUE" or "[NAME=]FILE", as typed
};

enum class SettingGroup { reading, joint, angle, stillness, phases, turning_points, activity, load };

/// One setting by name.
struct SettingKind {
    std::string_view name;  ///< as an option without dashes, "lowpass-hz"; as a key of JSON, "lowpass_hz"
    SettingGroup group;
    std::string_view value;  ///< what stands behind the option in its help; empty for a switch
    std::string_view help;
    bool repeatable;  ///< each further value adds to the ones before
    /// \throws Failure usage "setting-invalid"
    void (*set)(Settings& settings, std::string_view text);
    /// The value in force, empty when it is left to be found out.
    std::string (*text)(const Settings& settings);

    [[nodiscard]] std::string key() const;
};

/// Every setting, in the order of the job.
[[nodiscard]] std::span<const SettingKind> setting_catalogue();

/// The words that a setting may be, for those who type or mistype them; of lowpass-hz, auto and off, beside which it
/// may be a number. Empty for a setting that is anything. \param name as SettingKind::name
[[nodiscard]] std::vector<std::string> setting_choices(std::string_view name);

/// Names of joints, of directions, and of directions and motions of the built-in table, each once.
[[nodiscard]] std::vector<std::string> joint_choices();
[[nodiscard]] std::vector<std::string> direction_choices();
[[nodiscard]] std::vector<std::string> motion_choices();

/// Applies a settings file: one JSON object, keys as SettingKind::key(), values texts, numbers, true/false, or lists of
/// them for settings that can be repeated.
/// \throws Failure missing_file "file-missing"; usage "settings-file-invalid" for anything that is not such an object,
///   with the nearest known key for an unknown one
/// \param overruled names of settings that hold whatever the file says: its values for these are read, and left
void apply_settings_file(const std::filesystem::path& path, Settings& settings,
                         std::span<const std::string_view> overruled = {});

/// Name and value of every setting of the groups, in order; one that is left to be found out has an empty value.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> settings_in_force(const Settings& settings,
                                                                                 std::span<const SettingGroup> groups);

}  // namespace jointrom
