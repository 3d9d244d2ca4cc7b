#include "analysis/setting_groups.hpp"
#include "analysis/setting_text.hpp"

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

using Text = std::string_view;

/// Names of delimiters, since a tab or a blank is awkward to type.
constexpr auto delimiters = std::to_array<std::pair<std::string_view, char>>(
    {{"comma", ','}, {"semicolon", ';'}, {"tab", '\t'}, {"bar", '|'}, {"blanks", ' '}});
constexpr auto decimal_marks = std::to_array<std::pair<std::string_view, char>>({{"point", '.'}, {"comma", ','}});

template <std::size_t Count>
char mark_named(Text name, Text text, const std::array<std::pair<std::string_view, char>, Count>& marks,
                Text expected) {
    const auto found = std::ranges::find(marks, text, &std::pair<std::string_view, char>::first);
    if (found == marks.end()) {
        refuse_setting(name, text, expected);
    }
    return found->second;
}

template <std::size_t Count>
std::string mark_text(std::optional<char> mark, const std::array<std::pair<std::string_view, char>, Count>& marks) {
    return mark ? std::string(std::ranges::find(marks, *mark, &std::pair<std::string_view, char>::second)->first)
                : std::string();
}

void set_lowpass(Settings& settings, Text text) {
    LowpassChoice& lowpass = settings.preparation.lowpass;
    if (text == "auto" || text == "off") {
        lowpass.rule = text == "auto" ? LowpassChoice::Rule::automatic : LowpassChoice::Rule::off;
        return;
    }
    constexpr double least_hz = 0.01;  // slower than anything a joint does in a recording
    const auto value = parse_number(text);
    if (!value || *value < least_hz) {
        refuse_setting("lowpass-hz", text, "a frequency of 0.01 Hz or more, auto or off");
    }
    lowpass = {LowpassChoice::Rule::fixed, Hertz(*value)};
}

std::string lowpass_text(const Settings& settings) {
    const LowpassChoice& lowpass = settings.preparation.lowpass;
    return lowpass.rule == LowpassChoice::Rule::automatic ? "auto"
           : lowpass.rule == LowpassChoice::Rule::off     ? "off"
                                                          : quantity_text(lowpass.cutoff);
}

void add_rate(Settings& settings, Text text) {
    const auto [channel, rate] = named_value(text);
    const Hertz value(positive_setting("rate-hz", rate));
    if (channel.empty()) {
        settings.reading.rate = value;
    } else {
        settings.reading.channel_rates.push_back({channel, value});
    }
}

std::string rates_text(const Settings& settings) {
    std::string text = quantity_text(settings.reading.rate);
    for (const auto& [channel, rate] : settings.reading.channel_rates) {
        text += (text.empty() ? "" : ",") + channel + "=" + quantity_text(rate);
    }
    return text;
}

void add_emg(Settings& settings, Text text) {
    const auto [name, column] = named_value(text);
    if (name.empty() || column.empty()) {
        refuse_setting("emg", text, "NAME=COLUMN, such as biceps=3");
    }
    settings.reading.emg_columns.push_back({name, column});
}

std::string emg_text(const Settings& settings) {
    std::string text;
    for (const auto& [name, column] : settings.reading.emg_columns) {
        text += (text.empty() ? "" : ",") + name + "=" + column;
    }
    return text;
}

std::string missing_text(const Settings& settings) {
    std::string text;
    for (const double value : settings.reading.missing_values) {
        text += (text.empty() ? "" : ",") + shortest_text(value);
    }
    return text;
}

void set_neutral_window(Settings& settings, Text text) {
    NeutralChoice& neutral = settings.preparation.neutral;
    neutral.window = window_setting("neutral-s", text);
    neutral.rule = NeutralChoice::Rule::window;
}

void set_neutral_reading(Settings& settings, Text text) {
    NeutralChoice& neutral = settings.preparation.neutral;
    neutral.value = Degrees(number_setting("neutral-deg", text));
    neutral.rule = NeutralChoice::Rule::value;
}

constexpr auto reading = SettingGroup::reading;
constexpr auto joint = SettingGroup::joint;
constexpr auto angle = SettingGroup::angle;
constexpr auto stillness = SettingGroup::stillness;
constexpr auto phases = SettingGroup::phases;
constexpr auto turning_points = SettingGroup::turning_points;

constexpr auto catalogue = std::to_array<SettingKind>({
    {"time", reading, "COLUMN", "the column of times, by heading or number from 1", false,
     [](Settings& s, Text t) { s.reading.time_column = t; }, [](const Settings& s) { return s.reading.time_column; }},
    {"angle", reading, "COLUMN", "the column of angles, by heading or number from 1", false,
     [](Settings& s, Text t) { s.reading.angle_column = t; }, [](const Settings& s) { return s.reading.angle_column; }},
    {"emg", reading, "NAME=COLUMN", "a column of muscle activity and a name for it", true, add_emg, emg_text},
    {"rate-hz", reading, "[NAME=]N", "samples per second where the file has no times; of one channel with NAME=", true,
     add_rate, rates_text},
    {"angle-unit", reading, "UNIT", "unit of the angle column: deg, rad, V, mV or counts", false,
     [](Settings& s, Text t) { s.reading.angle_unit = t; }, [](const Settings& s) { return s.reading.angle_unit; }},
    {"missing", reading, "NUMBER", "a number that stands for a missing sample, such as 666", true,
     [](Settings& s, Text t) { s.reading.missing_values.push_back(number_setting("missing", t)); }, missing_text},
    {"trial", reading, "N", "which of several trials in the file, from 1", false,
     [](Settings& s, Text t) { s.reading.trial = count_setting("trial", t); },
     [](const Settings& s) { return s.reading.trial ? std::to_string(*s.reading.trial) : std::string(); }},
    {"delimiter", reading, "NAME", "what stands between cells: comma, semicolon, tab, bar or blanks", false,
     [](Settings& s, Text t) {
         s.reading.delimiter = mark_named("delimiter", t, delimiters, "comma, semicolon, tab, bar or blanks");
     },
     [](const Settings& s) { return mark_text(s.reading.delimiter, delimiters); }},
    {"decimal", reading, "NAME", "decimal mark: point or comma", false,
     [](Settings& s, Text t) { s.reading.decimal_mark = mark_named("decimal", t, decimal_marks, "point or comma"); },
     [](const Settings& s) { return mark_text(s.reading.decimal_mark, decimal_marks); }},

    {"joint", joint, "NAME", "elbow, knee, wrist, ...; names the directions and what is plausible", false,
     [](Settings& s, Text t) { s.joint = t; }, [](const Settings& s) { return s.joint; }},
    {"motion", joint, "NAME", "which motion of the joint, such as abduction; otherwise its principal one", false,
     [](Settings& s, Text t) { s.motion = t; }, [](const Settings& s) { return s.motion; }},
    {"side", joint, "SIDE", "left or right", false, [](Settings& s, Text t) { s.preparation.side = side_named(t); },
     [](const Settings& s) {
         return s.preparation.side == Side::unknown ? std::string() : std::string(name_of(s.preparation.side));
     }},

    {"calibration", angle, "FILE", "calibration file, as calibrate writes it", false,
     [](Settings& s, Text t) { s.calibration_file = t; }, [](const Settings& s) { return s.calibration_file; }},
    {"neutral-s", angle, "START,END", "seconds between which the joint was held in neutral", false, set_neutral_window,
     [](const Settings& s) { return window_text(s.preparation.neutral.window); }},
    {"neutral-deg", angle, "ANGLE", "what the sensor shows in neutral, in degrees; 0 keeps its own zero", false,
     set_neutral_reading, [](const Settings& s) { return quantity_text(s.preparation.neutral.value); }},
    {"neutral-file", angle, "FILE", "a recording of the joint held in neutral", false,
     [](Settings& s, Text t) { s.neutral_file = t; }, [](const Settings& s) { return s.neutral_file; }},
    {"mirror", angle, "", "the sensor is mounted so that it falls where it should rise", false,
     [](Settings& s, Text t) { s.preparation.mirror = switch_setting("mirror", t); },
     [](const Settings& s) {
         return s.preparation.mirror ? std::string(*s.preparation.mirror ? "true" : "false") : std::string();
     }},
    {"lowpass-hz", angle, "N|auto|off", "cut-off of the zero-lag low-pass filter; auto finds it from the recording",
     false, set_lowpass, lowpass_text},
    {"bridge-s", angle, "SECONDS", "longest gap that is filled by a straight line; 0 fills none", false,
     [](Settings& s, Text t) { s.preparation.longest_bridged = Seconds(number_setting("bridge-s", t)); },
     [](const Settings& s) { return quantity_text(s.preparation.longest_bridged); }},
    {"keep-spikes", angle, "", "leave jumps of a few samples in, which are otherwise taken out", false,
     [](Settings& s, Text t) { s.preparation.keep_spikes = switch_setting("keep-spikes", t); },
     [](const Settings& s) { return std::string(s.preparation.keep_spikes ? "true" : "false"); }},
    {"sensor-error-deg", angle, "D", "largest error of a reading when there is no calibration", false,
     [](Settings& s, Text t) { s.preparation.sensor_error = Degrees(positive_setting("sensor-error-deg", t)); },
     [](const Settings& s) { return quantity_text(s.preparation.sensor_error); }},
    {"window-s", angle, "START,END", "the part of the recording to measure, in seconds", false,
     [](Settings& s, Text t) { s.preparation.window = window_setting("window-s", t); },
     [](const Settings& s) { return window_text(s.preparation.window); }},

    {"hold-s", stillness, "SECONDS", "shortest time that counts as a posture held still", false,
     [](Settings& s, Text t) { s.stillness.min_duration = Seconds(positive_setting("hold-s", t)); },
     [](const Settings& s) { return quantity_text(s.stillness.min_duration); }},
    {"still-deg-s", stillness, "SPEED", "speed below which the joint is still, in deg/s", false,
     [](Settings& s, Text t) { s.stillness.max_speed = DegreesPerSecond(positive_setting("still-deg-s", t)); },
     [](const Settings& s) { return quantity_text(s.stillness.max_speed); }},

    {"pause-s", phases, "SECONDS", "shortest stop between movements that is a phase of its own", false,
     [](Settings& s, Text t) { s.phases.min_hold = Seconds(positive_setting("pause-s", t)); },
     [](const Settings& s) { return quantity_text(s.phases.min_hold); }},
    {"moving-deg-s", phases, "SPEED", "speed below which nothing counts as a movement, in deg/s", false,
     [](Settings& s, Text t) { s.phases.min_speed = DegreesPerSecond(positive_setting("moving-deg-s", t)); },
     [](const Settings& s) { return quantity_text(s.phases.min_speed); }},

    {"prominence-deg", turning_points, "ANGLE", "how far the joint must turn back for a turning point to count", false,
     [](Settings& s, Text t) { s.turning_points.prominence = Degrees(positive_setting("prominence-deg", t)); },
     [](const Settings& s) { return quantity_text(s.turning_points.prominence); }},
});

}  // namespace

std::span<const SettingKind> setting_catalogue() {
    static const std::vector<SettingKind> all = [] {
        std::vector<SettingKind> kinds(catalogue.begin(), catalogue.end());
        for (const std::span<const SettingKind> more : {activity_settings(), load_settings()}) {
            kinds.insert(kinds.end(), more.begin(), more.end());
        }
        return kinds;
    }();
    return all;
}

std::string SettingKind::key() const {
    std::string result(name);
    std::ranges::replace(result, '-', '_');
    return result;
}

std::vector<std::pair<std::string, std::string>> settings_in_force(const Settings& settings,
                                                                   std::span<const SettingGroup> groups) {
    std::vector<std::pair<std::string, std::string>> result;
    for (const SettingKind& kind : setting_catalogue()) {
        if (std::ranges::find(groups, kind.group) != groups.end()) {
            result.emplace_back(kind.key(), kind.text(settings));
        }
    }
    return result;
}

}  // namespace jointrom
