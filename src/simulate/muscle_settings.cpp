#include "simulate/setting_readers.hpp"

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

using Text = std::string_view;

void add_muscle(Simulation& simulation, Text setting, Text text) {
    const auto [name, levels] = named_value(text);
    constexpr Text expected = "NAME=RAISING,HOLDING,LOWERING,REST in mV, such as Biceps=0.42,0.26,0.17,0.006";
    if (name.empty() || name.find_first_of(",;\"\t\r\n") != std::string::npos || name.front() == '+' ||
        name.front() == '-' || name.front() == '@') {
        refuse_setting(setting, text, expected);
    }
    const auto mv = numbers(setting, levels, 4, expected);
    if (std::ranges::any_of(mv, [](double level) { return level < 0.0; })) {
        refuse_setting(setting, text, expected);
    }
    const MuscleModel muscle{
        .name = name, .raising_mv = mv[0], .holding_mv = mv[1], .lowering_mv = mv[2], .rest_mv = mv[3]};
    const auto known = std::ranges::find(simulation.muscles, name, &MuscleModel::name);
    if (known == simulation.muscles.end()) {
        simulation.muscles.push_back(muscle);
    } else {
        *known = muscle;
    }
}

/// Sets something of the muscle that is named, or of all.
template <typename Set>
void set_muscle(Simulation& simulation, Text setting, Text text, Set set) {
    const auto [name, value] = named_value(text);
    bool is_known = name.empty();
    for (MuscleModel& muscle : simulation.muscles) {
        if (name.empty() || name == muscle.name) {
            set(muscle, value);
            is_known = true;
        }
    }
    if (!is_known) {
        throw Failure(FailureKind::usage, "muscle-unknown",
                      fmt::format("{} {}: there is no muscle {}", setting, text, name),
                      "Muscles are made with --emg NAME=RAISING,HOLDING,LOWERING,REST.");
    }
}

void set_lead(Simulation& simulation, Text setting, Text text) {
    set_muscle(simulation, setting, text, [setting](MuscleModel& muscle, Text value) {
        muscle.lead_ms = number_between(setting, value, -10000.0, 10000.0);
    });
}

void set_early(Simulation& simulation, Text setting, Text text) {
    set_muscle(simulation, setting, text, [setting](MuscleModel& muscle, Text value) {
        muscle.early_ms = number_between(setting, value, -10000.0, 10000.0);
    });
}

void set_median(Simulation& simulation, Text setting, Text text) {
    set_muscle(simulation, setting, text, [setting](MuscleModel& muscle, Text value) {
        muscle.median_frequency = Hertz(number_between(setting, value, 10.0, 400.0));
    });
}

void add_burst(Simulation& simulation, Text setting, Text text) {
    set_muscle(simulation, setting, text, [setting](MuscleModel& muscle, Text value) {
        constexpr Text expected = "NAME=START_S,END_S,MV, such as Biceps=2,5,0.7";
        const auto burst = numbers(setting, value, 3, expected);
        if (burst[0] >= burst[1] || burst[2] < 0.0) {
            refuse_setting(setting, value, expected);
        }
        muscle.bursts.push_back({burst[0], burst[1], burst[2]});
    });
}

void set_fatigue(Simulation& simulation, Text setting, Text text) {
    set_muscle(simulation, setting, text, [setting](MuscleModel& muscle, Text value) {
        constexpr Text expected = "NAME=START_S,END_S,MEDIAN_HZ,TIMES, such as Biceps=3,11,75,1.3";
        const auto tired = numbers(setting, value, 4, expected);
        if (tired[0] >= tired[1] || tired[2] < 10.0 || tired[2] > 400.0 || tired[3] < 0.0) {
            refuse_setting(setting, value, expected);
        }
        muscle.fatigue = {tired[0], tired[1], Hertz(tired[2]), tired[3]};
    });
}

constexpr auto settings = std::to_array<SimulationSetting>({
    {"emg", SimulationGroup::muscles, "NAME=A,B,C,D",
     "a muscle, with SD in mV while raising, holding, lowering and at rest", true, add_muscle},
    {"emg-lead-ms", SimulationGroup::muscles, "[NAME=]T", "active so long before a repetition starts (60)", true,
     set_lead},
    {"emg-early-ms", SimulationGroup::muscles, "[NAME=]T", "at rest so long before a repetition ends (100)", true,
     set_early},
    {"emg-median-hz", SimulationGroup::muscles, "[NAME=]F", "median frequency (80)", true, set_median},
    {"burst", SimulationGroup::muscles, "[NAME=]T,T,MV", "active from a time to a time (s), with an SD in mV", true,
     add_burst},
    {"emg-tires", SimulationGroup::muscles, "[NAME=]T,T,F,X",
     "tires from a time to a time (s): the median frequency goes to F, the SD to X times what it was", true,
     set_fatigue},
    {"hum-mv", SimulationGroup::muscles, "MV", "amplitude of mains hum in each electromyogram (0)", false,
     SIMULATION_SETTER(logger.hum_mv, spread_in)},
});

}  // namespace

std::span<const SimulationSetting> muscle_settings() {
    return settings;
}

}  // namespace jointrom
