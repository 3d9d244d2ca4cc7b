#include "simulate/setting_readers.hpp"

#include <array>
#include <charconv>

namespace jointrom {
namespace {

using Text = std::string_view;

void set_seed(Simulation& simulation, Text name, Text text) {
    std::uint64_t seed = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (error != std::errc() || end != text.data() + text.size()) {
        refuse_setting(name, text, "a whole number from 0 to 18446744073709551615");
    }
    simulation.seed = seed;
}

void set_participant(Simulation& simulation, Text name, Text text) {
    if (text.empty() || text.find_first_of("/\\,;\"\t\r\n=+@") != Text::npos || text.front() == '.' ||
        text.front() == '-') {
        refuse_setting(name, text, "a plain name such as P01");
    }
    simulation.participant = text;
}

void set_sides(Simulation& simulation, Text, Text text) {
    simulation.sides =
        text == "both" ? std::vector<Side>{Side::left, Side::right} : std::vector<Side>{side_named(text)};
}

constexpr auto who = std::to_array<SimulationSetting>({
    {"seed", SimulationGroup::who, "N", "the same seed gives the same bytes on every machine (1)", false, set_seed},
    {"file", SimulationGroup::who, "NAME", "name of each recording ({participant}_{side}_{joint}.csv); {trial} too",
     false, [](Simulation& simulation, Text, Text text) { simulation.file = text; }},
    {"participant", SimulationGroup::who, "NAME", "who is measured (P01)", false, set_participant},
    {"joint", SimulationGroup::who, "NAME", "joint (elbow)", false,
     [](Simulation& simulation, Text, Text text) { simulation.joint = text; }},
    {"motion", SimulationGroup::who, "NAME", "motion of the joint (its principal one)", false,
     [](Simulation& simulation, Text, Text text) { simulation.motion = text; }},
    {"side", SimulationGroup::who, "SIDE", "left, right or both (right)", false, set_sides},
    {"trials", SimulationGroup::who, "N", "recordings of each side (1)", false,
     SIMULATION_SETTER(trials, at_least_one)},
    {"note", SimulationGroup::who, "TEXT", "a remark on the recordings that goes into their truth", false,
     [](Simulation& simulation, Text, Text text) { simulation.note = text; }},
});

constexpr auto people = std::to_array<SimulationSetting>({
    {"students", SimulationGroup::people, "N", "a class of so many, P01, P02, ...", false,
     SIMULATION_SETTER(people.students, count_up_to_many)},
    {"top-between-sd-deg", SimulationGroup::people, "D", "SD of the true top between students (6)", false,
     SIMULATION_SETTER(people.top_between_sd_deg, spread_in)},
    {"bottom-between-sd-deg", SimulationGroup::people, "D", "SD of the true bottom between students (2)", false,
     SIMULATION_SETTER(people.bottom_between_sd_deg, spread_in)},
    {"side-sd-deg", SimulationGroup::people, "D", "SD of a side's top about the student's own (1.5)", false,
     SIMULATION_SETTER(people.side_sd_deg, spread_in)},
    {"tempo-between-pct", SimulationGroup::people, "P", "SD of the times between students (10)", false,
     SIMULATION_SETTER(people.tempo_between_pct, spread_in)},
    {"mounting-sd-deg", SimulationGroup::people, "D", "SD of the reading at neutral between recordings of a class (3)",
     false, SIMULATION_SETTER(people.mounting_sd_deg, spread_in)},
});

}  // namespace

std::span<const SimulationSetting> who_settings() {
    return who;
}

std::span<const SimulationSetting> people_settings() {
    return people;
}

}  // namespace jointrom
