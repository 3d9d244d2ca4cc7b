#include "simulate/setting_readers.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace jointrom {
namespace {

using Text = std::string_view;

void set_rate(Simulation& simulation, Text name, Text text) {
    simulation.logger.rate = Hertz(number_between(name, text, 0.1, 100000.0));
}

void set_delimiter(Simulation& simulation, Text name, Text text) {
    constexpr auto marks = std::to_array<std::pair<Text, char>>({{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}});
    const auto found = std::ranges::find(marks, text, &std::pair<Text, char>::first);
    if (found == marks.end()) {
        refuse_setting(name, text, "comma, semicolon or tab");
    }
    simulation.logger.delimiter = found->second;
}

void set_decimal(Simulation& simulation, Text name, Text text) {
    if (text != "point" && text != "comma") {
        refuse_setting(name, text, "point or comma");
    }
    simulation.logger.decimal_mark = text == "comma" ? ',' : '.';
}

void add_preamble(Simulation& simulation, Text name, Text text) {
    if (text.find_first_of("\r\n") != Text::npos) {
        refuse_setting(name, text, "one line");
    }
    simulation.logger.preamble.emplace_back(text);
}

void set_heading(Simulation& simulation, Text name, Text text) {
    if (text.find_first_of("\r\n\t,;\"") != Text::npos) {
        refuse_setting(name, text, "a plain heading, such as Goniometer");
    }
    simulation.logger.angle_heading = text;
}

void set_brackets(Simulation& simulation, Text name, Text text) {
    if (text != "round" && text != "square") {
        refuse_setting(name, text, "round or square");
    }
    simulation.logger.square_brackets = text == "square";
}

constexpr auto settings = std::to_array<SimulationSetting>({
    {"rate-hz", SimulationGroup::logger, "F", "rows a second (200)", false, set_rate},
    {"angle-rate-hz", SimulationGroup::logger, "F", "angles a second, where they are fewer; blank cells in between",
     false,
     [](Simulation& simulation, Text name, Text text) {
         simulation.logger.angle_rate = Hertz(positive_setting(name, text));
     }},
    {"jitter-ms", SimulationGroup::logger, "T", "SD of the sampling times, which the time column tells (0)", false,
     SIMULATION_SETTER(logger.jitter_ms, spread_in)},
    {"gap-s", SimulationGroup::logger, "START,END", "nothing is logged", true,
     [](Simulation& simulation, Text name, Text text) {
         simulation.logger.gaps.push_back(window_setting(name, text));
     }},
    {"blank-gaps", SimulationGroup::logger, "", "gaps are rows with blank cells", false,
     SIMULATION_SETTER(logger.gaps_are_blank, switch_setting)},
    {"mains-hz", SimulationGroup::logger, "F", "frequency of hum (50)", false,
     [](Simulation& simulation, Text name, Text text) {
         simulation.logger.mains = Hertz(positive_setting(name, text));
     }},
    {"delimiter", SimulationGroup::logger, "NAME", "comma, semicolon or tab (comma)", false, set_delimiter},
    {"decimal", SimulationGroup::logger, "NAME", "decimal point or comma (point)", false, set_decimal},
    {"decimals", SimulationGroup::logger, "N", "decimals of the reading (as the resolution needs)", false,
     [](Simulation& simulation, Text name, Text text) {
         simulation.logger.decimals = static_cast<int>(number_between(name, text, 0.0, 9.0));
     }},
    {"byte-order-mark", SimulationGroup::logger, "", "the file starts with one", false,
     SIMULATION_SETTER(logger.byte_order_mark, switch_setting)},
    {"carriage-returns", SimulationGroup::logger, "", "lines end with CR and LF", false,
     SIMULATION_SETTER(logger.carriage_returns, switch_setting)},
    {"unit-row", SimulationGroup::logger, "", "units stand in a row of their own", false,
     SIMULATION_SETTER(logger.units_in_row, switch_setting)},
    {"unit-brackets", SimulationGroup::logger, "NAME", "brackets of the units in the headings, round or square (round)",
     false, set_brackets},
    {"preamble", SimulationGroup::logger, "TEXT", "a line above the table", true, add_preamble},
    {"angle-heading", SimulationGroup::logger, "TEXT", "heading of the reading (Elbow angle)", false, set_heading},
});

}  // namespace

std::span<const SimulationSetting> logger_settings() {
    return settings;
}

}  // namespace jointrom
