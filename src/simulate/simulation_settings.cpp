#include "analysis/setting_text.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/simulate/simulation_settings.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace jointrom {
namespace {

using Text = std::string_view;
using Group = SimulationGroup;

double number_between(Text name, Text text, double least, double most) {
    const double value = number_setting(name, text);
    if (value < least || value > most) {
        refuse_setting(name, text, fmt::format("a number from {:g} to {:g}", least, most));
    }
    return value;
}

std::size_t count_up_to_many(Text name, Text text) {
    const double value = number_between(name, text, 0.0, 1e5);
    if (value != std::floor(value)) {
        refuse_setting(name, text, "a whole number");
    }
    return static_cast<std::size_t>(value);
}

std::size_t at_least_one(Text name, Text text) {
    (void)number_between(name, text, 1.0, 1e5);
    return count_up_to_many(name, text);
}

constexpr double longest_s = 86400.0;

Seconds time_in(Text name, Text text) {
    return Seconds(number_between(name, text, 0.0, longest_s));
}

Seconds some_time(Text name, Text text) {
    return Seconds(number_between(name, text, 0.001, longest_s));
}

double spread_in(Text name, Text text) {
    return number_between(name, text, 0.0, 1e6);
}

std::vector<double> angles(Text name, Text text) {
    std::vector<double> list = number_list_setting(name, text);
    for (const double angle_deg : list) {
        if (angle_deg < -360.0 || angle_deg > 360.0) {
            refuse_setting(name, text, "angles from -360 to 360 deg");
        }
    }
    return list;
}

std::vector<double> numbers(Text name, Text text, std::size_t count, Text expected) {
    std::vector<double> list = number_list_setting(name, text);
    if (list.size() != count) {
        refuse_setting(name, text, expected);
    }
    return list;
}

void set_seed(Simulation& simulation, Text text) {
    std::uint64_t seed = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (error != std::errc() || end != text.data() + text.size()) {
        refuse_setting("seed", text, "a whole number from 0 to 18446744073709551615");
    }
    simulation.seed = seed;
}

void set_participant(Simulation& simulation, Text text) {
    if (text.empty() || text.find_first_of("/\\,;\"\t\r\n=+@") != Text::npos || text.front() == '.' ||
        text.front() == '-') {
        refuse_setting("participant", text, "a plain name such as P01");
    }
    simulation.participant = text;
}

void set_sides(Simulation& simulation, Text text) {
    simulation.sides =
        text == "both" ? std::vector<Side>{Side::left, Side::right} : std::vector<Side>{side_named(text)};
}

void set_limits(Simulation& simulation, Text text) {
    const auto limits = numbers("limits", text, 2, "LOWEST,HIGHEST reading, such as 0,5");
    if (limits[0] >= limits[1]) {
        refuse_setting("limits", text, "LOWEST,HIGHEST reading, such as 0,5");
    }
    simulation.sensor.limits = {limits[0], limits[1]};
}

void add_slip(Simulation& simulation, Text text) {
    const auto slip = numbers("slip", text, 2, "TIME_S,ANGLE_DEG, such as 8.5,-12");
    simulation.sensor.slips.emplace_back(slip[0], slip[1]);
}

void set_wrap(Simulation& simulation, Text text) {
    simulation.sensor.wraps_at = positive_setting("wraps-at", text);
}

void set_rate(Simulation& simulation, Text text) {
    simulation.logger.rate = Hertz(number_between("rate-hz", text, 0.1, 100000.0));
}

// Muscles.

void add_muscle(Simulation& simulation, Text text) {
    const auto [name, levels] = named_value(text);
    constexpr Text expected = "NAME=RAISING,HOLDING,LOWERING,REST in mV, such as Biceps=0.42,0.26,0.17,0.006";
    if (name.empty() || name.find_first_of(",;\"\t\r\n") != std::string::npos || name.front() == '+' ||
        name.front() == '-' || name.front() == '@') {
        refuse_setting("emg", text, expected);
    }
    const auto mv = numbers("emg", levels, 4, expected);
    if (std::ranges::any_of(mv, [](double level) { return level < 0.0; })) {
        refuse_setting("emg", text, expected);
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

void set_lead(Simulation& simulation, Text text) {
    set_muscle(simulation, "emg-lead-ms", text, [](MuscleModel& muscle, Text value) {
        muscle.lead_ms = number_between("emg-lead-ms", value, -10000.0, 10000.0);
    });
}

void set_early(Simulation& simulation, Text text) {
    set_muscle(simulation, "emg-early-ms", text, [](MuscleModel& muscle, Text value) {
        muscle.early_ms = number_between("emg-early-ms", value, -10000.0, 10000.0);
    });
}

void set_median(Simulation& simulation, Text text) {
    set_muscle(simulation, "emg-median-hz", text, [](MuscleModel& muscle, Text value) {
        muscle.median_frequency = Hertz(number_between("emg-median-hz", value, 10.0, 400.0));
    });
}

void add_burst(Simulation& simulation, Text text) {
    set_muscle(simulation, "burst", text, [](MuscleModel& muscle, Text value) {
        constexpr Text expected = "NAME=START_S,END_S,MV, such as Biceps=2,5,0.7";
        const auto burst = numbers("burst", value, 3, expected);
        if (burst[0] >= burst[1] || burst[2] < 0.0) {
            refuse_setting("burst", value, expected);
        }
        muscle.bursts.push_back({burst[0], burst[1], burst[2]});
    });
}

// The logger.

void set_delimiter(Simulation& simulation, Text text) {
    constexpr auto marks = std::to_array<std::pair<Text, char>>({{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}});
    const auto found = std::ranges::find(marks, text, &std::pair<Text, char>::first);
    if (found == marks.end()) {
        refuse_setting("delimiter", text, "comma, semicolon or tab");
    }
    simulation.logger.delimiter = found->second;
}

void set_decimal(Simulation& simulation, Text text) {
    if (text != "point" && text != "comma") {
        refuse_setting("decimal", text, "point or comma");
    }
    simulation.logger.decimal_mark = text == "comma" ? ',' : '.';
}

void add_preamble(Simulation& simulation, Text text) {
    if (text.find_first_of("\r\n") != Text::npos) {
        refuse_setting("preamble", text, "one line");
    }
    simulation.logger.preamble.emplace_back(text);
}

void set_heading(Simulation& simulation, Text text) {
    if (text.find_first_of("\r\n\t,;\"") != Text::npos) {
        refuse_setting("angle-heading", text, "a plain heading, such as Goniometer");
    }
    simulation.logger.angle_heading = text;
}

void set_unit(Simulation& simulation, Text text) {
    if (text.empty() || text.find_first_of("\r\n\t,;\"") != Text::npos) {
        refuse_setting("unit", text, "deg, rad, V, mV or counts");
    }
    simulation.sensor.unit = text;
}

#define SETTER(name, member, reader) [](Simulation& simulation, Text text) { simulation.member = reader(name, text); }

constexpr auto settings = std::to_array<SimulationSetting>({
    {"seed", Group::who, "N", "the same seed gives the same bytes on every machine (1)", false, set_seed},
    {"file", Group::who, "NAME", "name of each recording ({participant}_{side}_{joint}.csv); {trial} too", false,
     [](Simulation& simulation, Text text) { simulation.file = text; }},
    {"participant", Group::who, "NAME", "who is measured (P01)", false, set_participant},
    {"joint", Group::who, "NAME", "joint (elbow)", false,
     [](Simulation& simulation, Text text) { simulation.joint = text; }},
    {"motion", Group::who, "NAME", "motion of the joint (its principal one)", false,
     [](Simulation& simulation, Text text) { simulation.motion = text; }},
    {"side", Group::who, "SIDE", "left, right or both (right)", false, set_sides},
    {"trials", Group::who, "N", "recordings of each side (1)", false, SETTER("trials", trials, at_least_one)},

    {"repetitions", Group::movement, "N", "how often the joint goes there and back (5)", false,
     SETTER("repetitions", movement.repetitions, count_up_to_many)},
    {"top-deg", Group::movement, "D,...", "true angle at the turn, one for all or one for each repetition (140)", false,
     SETTER("top-deg", movement.top_deg, angles)},
    {"bottom-deg", Group::movement, "D,...", "true angle at the end of each repetition (0)", false,
     SETTER("bottom-deg", movement.bottom_deg, angles)},
    {"top-sd-deg", Group::movement, "D", "SD of the tops between repetitions (1)", false,
     SETTER("top-sd-deg", movement.top_sd_deg, spread_in)},
    {"bottom-sd-deg", Group::movement, "D", "SD of the bottoms between repetitions (0.5)", false,
     SETTER("bottom-sd-deg", movement.bottom_sd_deg, spread_in)},
    {"tempo-sd-pct", Group::movement, "P", "SD of the times between repetitions (5)", false,
     SETTER("tempo-sd-pct", movement.tempo_sd_pct, spread_in)},
    {"rest-s", Group::movement, "T", "at neutral before the first repetition (2)", false,
     SETTER("rest-s", movement.rest, time_in)},
    {"raising-s", Group::movement, "T", "from bottom to top, or from posture to posture (1.1)", false,
     SETTER("raising-s", movement.raising, some_time)},
    {"holding-s", Group::movement, "T", "at the top, or in each posture (0.8)", false,
     SETTER("holding-s", movement.holding, time_in)},
    {"lowering-s", Group::movement, "T", "from top to bottom (1.5)", false,
     SETTER("lowering-s", movement.lowering, some_time)},
    {"pause-s", Group::movement, "T", "at the bottom between repetitions (0.9)", false,
     SETTER("pause-s", movement.pause, time_in)},
    {"end-rest-s", Group::movement, "T", "at neutral after the last repetition (1.5)", false,
     SETTER("end-rest-s", movement.end_rest, time_in)},
    {"postures-deg", Group::movement, "D,...", "angles that are held one after the other, instead of repetitions",
     false, SETTER("postures-deg", movement.postures_deg, angles)},

    {"neutral-reading", Group::sensor, "R", "reading at neutral (180)", false,
     SETTER("neutral-reading", sensor.neutral_reading, number_setting)},
    {"reading-per-deg", Group::sensor, "R", "gain with its sign (-1; on the left, where it is mounted mirrored, 1)",
     false, SETTER("reading-per-deg", sensor.reading_per_deg, number_setting)},
    {"unit", Group::sensor, "UNIT", "unit of the reading, as the heading names it (deg)", false, set_unit},
    {"noise-deg", Group::sensor, "D", "SD of the white noise (0.3)", false,
     SETTER("noise-deg", sensor.noise_deg, spread_in)},
    {"resolution", Group::sensor, "R", "step of the reading, in its unit (0.01)", false,
     SETTER("resolution", sensor.resolution, spread_in)},
    {"nonlinearity-deg", Group::sensor, "D",
     "SD of its error over the angle, the same for every recording of a seed (0)", false,
     SETTER("nonlinearity-deg", sensor.nonlinearity_deg, spread_in)},
    {"hum-deg", Group::sensor, "D", "amplitude of mains hum in the reading (0)", false,
     SETTER("hum-deg", sensor.hum_deg, spread_in)},
    {"wraps-at", Group::sensor, "R", "reading at which the sensor starts again at 0, such as 360", false, set_wrap},
    {"limits", Group::sensor, "R,R", "lowest and highest reading; beyond them it sticks", false, set_limits},
    {"drift-deg-per-min", Group::sensor, "D", "steady drift (0)", false,
     SETTER("drift-deg-per-min", sensor.drift_deg_per_min, number_setting)},
    {"slip", Group::sensor, "T,D", "the sensor slips at a time (s) by an angle (deg)", true, add_slip},
    {"spikes", Group::sensor, "N", "single samples that are far off, at random times (0)", false,
     SETTER("spikes", sensor.spikes, count_up_to_many)},
    {"spike-deg", Group::sensor, "D", "and by how much (60)", false, SETTER("spike-deg", sensor.spike_deg, spread_in)},
    {"stuck-s", Group::sensor, "START,END", "the reading stays the same", false,
     SETTER("stuck-s", sensor.stuck, window_setting)},

    {"emg", Group::muscles, "NAME=A,B,C,D", "a muscle, with SD in mV while raising, holding, lowering and at rest",
     true, add_muscle},
    {"emg-lead-ms", Group::muscles, "[NAME=]T", "active so long before a repetition starts (60)", true, set_lead},
    {"emg-early-ms", Group::muscles, "[NAME=]T", "at rest so long before a repetition ends (100)", true, set_early},
    {"emg-median-hz", Group::muscles, "[NAME=]F", "median frequency (80)", true, set_median},
    {"burst", Group::muscles, "[NAME=]T,T,MV", "active from a time to a time (s), with an SD in mV", true, add_burst},
    {"hum-mv", Group::muscles, "MV", "amplitude of mains hum in each electromyogram (0)", false,
     SETTER("hum-mv", logger.hum_mv, spread_in)},

    {"rate-hz", Group::logger, "F", "rows a second (200)", false, set_rate},
    {"angle-rate-hz", Group::logger, "F", "angles a second, where they are fewer; blank cells in between", false,
     [](Simulation& simulation, Text text) {
         simulation.logger.angle_rate = Hertz(positive_setting("angle-rate-hz", text));
     }},
    {"jitter-ms", Group::logger, "T", "SD of the sampling times, which the time column tells (0)", false,
     SETTER("jitter-ms", logger.jitter_ms, spread_in)},
    {"gap-s", Group::logger, "START,END", "nothing is logged", true,
     [](Simulation& simulation, Text text) { simulation.logger.gaps.push_back(window_setting("gap-s", text)); }},
    {"blank-gaps", Group::logger, "", "gaps are rows with blank cells", false,
     SETTER("blank-gaps", logger.gaps_are_blank, switch_setting)},
    {"mains-hz", Group::logger, "F", "frequency of hum (50)", false,
     [](Simulation& simulation, Text text) { simulation.logger.mains = Hertz(positive_setting("mains-hz", text)); }},
    {"delimiter", Group::logger, "NAME", "comma, semicolon or tab (comma)", false, set_delimiter},
    {"decimal", Group::logger, "NAME", "decimal point or comma (point)", false, set_decimal},
    {"decimals", Group::logger, "N", "decimals of the reading (as the resolution needs)", false,
     [](Simulation& simulation, Text text) {
         simulation.logger.decimals = static_cast<int>(number_between("decimals", text, 0.0, 9.0));
     }},
    {"byte-order-mark", Group::logger, "", "the file starts with one", false,
     SETTER("byte-order-mark", logger.byte_order_mark, switch_setting)},
    {"carriage-returns", Group::logger, "", "lines end with CR and LF", false,
     SETTER("carriage-returns", logger.carriage_returns, switch_setting)},
    {"unit-row", Group::logger, "", "units stand in a row of their own", false,
     SETTER("unit-row", logger.units_in_row, switch_setting)},
    {"preamble", Group::logger, "TEXT", "a line above the table", true, add_preamble},
    {"angle-heading", Group::logger, "TEXT", "heading of the reading (Elbow angle)", false, set_heading},

    {"students", Group::people, "N", "a class of so many, P01, P02, ...", false,
     SETTER("students", people.students, count_up_to_many)},
    {"top-between-sd-deg", Group::people, "D", "SD of the true top between students (6)", false,
     SETTER("top-between-sd-deg", people.top_between_sd_deg, spread_in)},
    {"bottom-between-sd-deg", Group::people, "D", "SD of the true bottom between students (2)", false,
     SETTER("bottom-between-sd-deg", people.bottom_between_sd_deg, spread_in)},
    {"side-sd-deg", Group::people, "D", "SD of a side's top about the student's own (1.5)", false,
     SETTER("side-sd-deg", people.side_sd_deg, spread_in)},
    {"tempo-between-pct", Group::people, "P", "SD of the times between students (10)", false,
     SETTER("tempo-between-pct", people.tempo_between_pct, spread_in)},
    {"mounting-sd-deg", Group::people, "D", "SD of the reading at neutral between recordings of a class (3)", false,
     SETTER("mounting-sd-deg", people.mounting_sd_deg, spread_in)},
});

#undef SETTER

}  // namespace

std::string SimulationSetting::key() const {
    std::string key(name);
    std::ranges::replace(key, '-', '_');
    return key;
}

std::span<const SimulationSetting> simulation_settings() {
    return settings;
}

void apply_texts(const SimulationTexts& texts, Simulation& simulation) {
    for (const bool muscles_first : {true, false}) {
        for (const auto& [setting, text] : texts) {
            if ((setting->name == "emg") == muscles_first) {
                setting->set(simulation, text);
            }
        }
    }
}

}  // namespace jointrom
