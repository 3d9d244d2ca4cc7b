#include "simulate/setting_readers.hpp"

#include <array>

namespace jointrom {
namespace {

using Text = std::string_view;

void set_limits(Simulation& simulation, Text name, Text text) {
    const auto limits = numbers(name, text, 2, "LOWEST,HIGHEST reading, such as 0,5");
    if (limits[0] >= limits[1]) {
        refuse_setting(name, text, "LOWEST,HIGHEST reading, such as 0,5");
    }
    simulation.sensor.limits = {limits[0], limits[1]};
}

void add_slip(Simulation& simulation, Text name, Text text) {
    const auto slip = numbers(name, text, 2, "TIME_S,ANGLE_DEG, such as 8.5,-12");
    simulation.sensor.slips.emplace_back(slip[0], slip[1]);
}

void set_wrap(Simulation& simulation, Text name, Text text) {
    simulation.sensor.wraps_at = positive_setting(name, text);
}

void set_unit(Simulation& simulation, Text name, Text text) {
    if (text.empty() || text.find_first_of("\r\n\t,;\"") != Text::npos) {
        refuse_setting(name, text, "deg, rad, V, mV or counts");
    }
    simulation.sensor.unit = text;
}

constexpr auto settings = std::to_array<SimulationSetting>({
    {"neutral-reading", SimulationGroup::sensor, "R", "reading at neutral (180)", false,
     SIMULATION_SETTER(sensor.neutral_reading, number_setting)},
    {"reading-per-deg", SimulationGroup::sensor, "R",
     "gain with its sign (-1; on the left, where it is mounted mirrored, 1)", false,
     SIMULATION_SETTER(sensor.reading_per_deg, number_setting)},
    {"unit", SimulationGroup::sensor, "UNIT", "unit of the reading, as the heading names it (deg)", false, set_unit},
    {"noise-deg", SimulationGroup::sensor, "D", "SD of the white noise (0.3)", false,
     SIMULATION_SETTER(sensor.noise_deg, spread_in)},
    {"resolution", SimulationGroup::sensor, "R", "step of the reading, in its unit (0.01)", false,
     SIMULATION_SETTER(sensor.resolution, spread_in)},
    {"nonlinearity-deg", SimulationGroup::sensor, "D",
     "SD of its error over the angle, the same for every recording of a seed (0)", false,
     SIMULATION_SETTER(sensor.nonlinearity_deg, spread_in)},
    {"hum-deg", SimulationGroup::sensor, "D", "amplitude of mains hum in the reading (0)", false,
     SIMULATION_SETTER(sensor.hum_deg, spread_in)},
    {"wraps-at", SimulationGroup::sensor, "R", "reading at which the sensor starts again at 0, such as 360", false,
     set_wrap},
    {"limits", SimulationGroup::sensor, "R,R", "lowest and highest reading; beyond them it sticks", false, set_limits},
    {"drift-deg-per-min", SimulationGroup::sensor, "D", "steady drift (0)", false,
     SIMULATION_SETTER(sensor.drift_deg_per_min, number_setting)},
    {"slip", SimulationGroup::sensor, "T,D", "the sensor slips at a time (s) by an angle (deg)", true, add_slip},
    {"spikes", SimulationGroup::sensor, "N", "single samples that are far off, at random times (0)", false,
     SIMULATION_SETTER(sensor.spikes, count_up_to_many)},
    {"spike-deg", SimulationGroup::sensor, "D", "and by how much (60)", false,
     SIMULATION_SETTER(sensor.spike_deg, spread_in)},
    {"stuck-s", SimulationGroup::sensor, "START,END", "the reading stays the same", false,
     SIMULATION_SETTER(sensor.stuck, window_setting)},
});

}  // namespace

std::span<const SimulationSetting> sensor_settings() {
    return settings;
}

}  // namespace jointrom
