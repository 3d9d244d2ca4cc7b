#include "simulate/setting_readers.hpp"

#include <array>

namespace jointrom {
namespace {

using Text = std::string_view;

constexpr auto settings = std::to_array<SimulationSetting>({
    {"repetitions", SimulationGroup::movement, "N", "how often the joint goes there and back (5)", false,
     SIMULATION_SETTER(movement.repetitions, count_up_to_many)},
    {"top-deg", SimulationGroup::movement, "D,...",
     "true angle at the turn, one for all or one for each repetition (140)", false,
     SIMULATION_SETTER(movement.top_deg, angles)},
    {"bottom-deg", SimulationGroup::movement, "D,...", "true angle at the end of each repetition (0)", false,
     SIMULATION_SETTER(movement.bottom_deg, angles)},
    {"top-sd-deg", SimulationGroup::movement, "D", "SD of the tops between repetitions (1)", false,
     SIMULATION_SETTER(movement.top_sd_deg, spread_in)},
    {"bottom-sd-deg", SimulationGroup::movement, "D", "SD of the bottoms between repetitions (0.5)", false,
     SIMULATION_SETTER(movement.bottom_sd_deg, spread_in)},
    {"tempo-sd-pct", SimulationGroup::movement, "P", "SD of the times between repetitions (5)", false,
     SIMULATION_SETTER(movement.tempo_sd_pct, spread_in)},
    {"rest-s", SimulationGroup::movement, "T", "at neutral before the first repetition (2)", false,
     SIMULATION_SETTER(movement.rest, time_in)},
    {"raising-s", SimulationGroup::movement, "T,...",
     "from bottom to top, or from posture to posture, one for all or one for each (1.1)", false,
     SIMULATION_SETTER(movement.raising, some_times)},
    {"holding-s", SimulationGroup::movement, "T", "at the top, or in each posture (0.8)", false,
     SIMULATION_SETTER(movement.holding, time_in)},
    {"lowering-s", SimulationGroup::movement, "T,...", "from top to bottom (1.5)", false,
     SIMULATION_SETTER(movement.lowering, some_times)},
    {"pause-s", SimulationGroup::movement, "T", "at the bottom between repetitions (0.9)", false,
     SIMULATION_SETTER(movement.pause, time_in)},
    {"end-rest-s", SimulationGroup::movement, "T", "at neutral after the last repetition (1.5)", false,
     SIMULATION_SETTER(movement.end_rest, time_in)},
    {"postures-deg", SimulationGroup::movement, "D,...",
     "angles that are held one after the other, instead of repetitions", false,
     SIMULATION_SETTER(movement.postures_deg, angles)},
});

}  // namespace

std::span<const SimulationSetting> movement_settings() {
    return settings;
}

}  // namespace jointrom
