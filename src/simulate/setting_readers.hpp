#pragma once

/// \file
/// The settings of a simulation by what they are about, and how their values are read. Private.

#include "analysis/setting_text.hpp"

#include <jointrom/simulate/simulation_settings.hpp>

#include <fmt/format.h>

#include <cmath>
#include <span>
#include <string_view>
#include <vector>

namespace jointrom {

[[nodiscard]] std::span<const SimulationSetting> who_settings();
[[nodiscard]] std::span<const SimulationSetting> movement_settings();
[[nodiscard]] std::span<const SimulationSetting> sensor_settings();
[[nodiscard]] std::span<const SimulationSetting> muscle_settings();
[[nodiscard]] std::span<const SimulationSetting> logger_settings();
[[nodiscard]] std::span<const SimulationSetting> people_settings();

inline double number_between(std::string_view name, std::string_view text, double least, double most) {
    const double value = number_setting(name, text);
    if (value < least || value > most) {
        refuse_setting(name, text, fmt::format("a number from {:g} to {:g}", least, most));
    }
    return value;
}

inline std::size_t count_up_to_many(std::string_view name, std::string_view text) {
    const double value = number_between(name, text, 0.0, 1e5);
    if (value != std::floor(value)) {
        refuse_setting(name, text, "a whole number");
    }
    return static_cast<std::size_t>(value);
}

inline std::size_t at_least_one(std::string_view name, std::string_view text) {
    (void)number_between(name, text, 1.0, 1e5);
    return count_up_to_many(name, text);
}

inline constexpr double longest_s = 86400.0;

inline Seconds time_in(std::string_view name, std::string_view text) {
    return Seconds(number_between(name, text, 0.0, longest_s));
}

inline Seconds some_time(std::string_view name, std::string_view text) {
    return Seconds(number_between(name, text, 0.001, longest_s));
}

inline double spread_in(std::string_view name, std::string_view text) {
    return number_between(name, text, 0.0, 1e6);
}

/// One for all repetitions or one for each.
inline std::vector<Seconds> some_times(std::string_view name, std::string_view text) {
    std::vector<Seconds> list;
    for (const double time_s : number_list_setting(name, text, "1.1,1.3")) {
        list.push_back(some_time(name, shortest_text(time_s)));
    }
    return list;
}

inline std::vector<double> angles(std::string_view name, std::string_view text) {
    std::vector<double> list = number_list_setting(name, text);
    for (const double angle_deg : list) {
        if (angle_deg < -360.0 || angle_deg > 360.0) {
            refuse_setting(name, text, "angles from -360 to 360 deg");
        }
    }
    return list;
}

inline std::vector<double> numbers(std::string_view name, std::string_view text, std::size_t count,
                                   std::string_view expected) {
    std::vector<double> list = number_list_setting(name, text);
    if (list.size() != count) {
        refuse_setting(name, text, expected);
    }
    return list;
}

}  // namespace jointrom

/// Sets a member by a reader of texts.
#define SIMULATION_SETTER(member, reader)                                                                              \
    [](Simulation& simulation, std::string_view name, std::string_view text) { simulation.member = reader(name, text); }
