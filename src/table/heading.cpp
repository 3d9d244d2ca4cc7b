#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace jointrom {
namespace {

using namespace std::string_view_literals;

struct UnitName {
    std::string_view name;  ///< lower case
    std::string_view unit;
};

constexpr auto unit_names = std::to_array<UnitName>({
    {"deg", "deg"},
    {"degs", "deg"},
    {"degree", "deg"},
    {"degrees", "deg"},
    {"°", "deg"},
    {"º", "deg"},
    {"˚", "deg"},
    {"grad", "deg"},
    {"grado", "deg"},
    {"grados", "deg"},
    {"gradi", "deg"},
    {"graden", "deg"},
    {"grader", "deg"},
    {"graus", "deg"},
    {"grau", "deg"},
    {"degré", "deg"},
    {"degrés", "deg"},
    {"stopnie", "deg"},
    {"rad", "rad"},
    {"radian", "rad"},
    {"radians", "rad"},
    {"v", "V"},
    {"volt", "V"},
    {"volts", "V"},
    {"mv", "mV"},
    {"millivolt", "mV"},
    {"millivolts", "mV"},
    {"uv", "uV"},
    {"µv", "uV"},
    {"μv", "uV"},
    {"microvolt", "uV"},
    {"microvolts", "uV"},
    {"s", "s"},
    {"sec", "s"},
    {"secs", "s"},
    {"second", "s"},
    {"seconds", "s"},
    {"sek", "s"},
    {"sekunden", "s"},
    {"seg", "s"},
    {"segundos", "s"},
    {"secondes", "s"},
    {"secondi", "s"},
    {"ms", "ms"},
    {"msec", "ms"},
    {"msecs", "ms"},
    {"msek", "ms"},
    {"millisecond", "ms"},
    {"milliseconds", "ms"},
    {"millis", "ms"},
    {"us", "us"},
    {"µs", "us"},
    {"μs", "us"},
    {"usec", "us"},
    {"microseconds", "us"},
    {"micros", "us"},
    {"min", "min"},
    {"mins", "min"},
    {"minute", "min"},
    {"minutes", "min"},
    {"h", "h"},
    {"hour", "h"},
    {"hours", "h"},
    {"hz", "Hz"},
    {"count", "counts"},
    {"counts", "counts"},
    {"cts", "counts"},
    {"adc", "counts"},
    {"lsb", "counts"},
    {"%", "%"},
    {"percent", "%"},
    {"n", "N"},
    {"newton", "N"},
    {"nm", "Nm"},
    {"n·m", "Nm"},
    {"n*m", "Nm"},
    {"n.m", "Nm"},
    {"deg/s", "deg/s"},
    {"deg/sec", "deg/s"},
    {"°/s", "deg/s"},
    {"º/s", "deg/s"},
    {"deg s-1", "deg/s"},
    {"deg_s", "deg/s"},
    {"dps", "deg/s"},
    {"rad/s", "rad/s"},
    {"g", "g"},
    {"m/s2", "m/s2"},
    {"m/s^2", "m/s2"},
    {"m/s²", "m/s2"},
    {"mm", "mm"},
    {"cm", "cm"},
    {"m", "m"},
    {"kg", "kg"},
});

constexpr std::array time_words = {"time"sv,    "t"sv,      "times"sv,       "timestamp"sv, "zeit"sv,     "temps"sv,
                                   "tiempo"sv,  "tempo"sv,  "tijd"sv,        "tid"sv,       "czas"sv,     "elapsed"sv,
                                   "seconds"sv, "millis"sv, "zeitstempel"sv, "clock"sv,     "messzeit"sv, "aika"sv};

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (static_cast<unsigned char>(c) >= 0x80);
}

std::string lower(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return result;
}

std::string_view strip(std::string_view text) {
    constexpr std::string_view blanks = " \t\r\n";
    const std::size_t first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string_view without_brackets(std::string_view text) {
    const bool bracketed = text.size() >= 2 &&
                           ((text.front() == '(' && text.back() == ')') ||
                            (text.front() == '[' && text.back() == ']') || (text.front() == '{' && text.back() == '}'));
    return bracketed ? strip(text.substr(1, text.size() - 2)) : text;
}

/// Units that outside brackets are read as such only where a time is named.
bool needs_time(std::string_view unit) {
    return unit == "s" || unit == "min" || unit == "h";
}

/// Units whose symbol is a single letter are too often part of a name ("Flexor M", "Grip N").
bool is_single_letter(std::string_view text) {
    return text.size() == 1 && text != "%";
}

struct Split {
    std::string_view quantity;
    std::string_view unit_text;
};

std::optional<Heading> heading_if_unit(Split split) {
    const std::optional<std::string> unit = normalised_unit(split.unit_text);
    if (!unit || strip(split.quantity).empty()) {
        return std::nullopt;
    }
    return Heading{std::string(strip(split.quantity)), *unit};
}

std::optional<Heading> split_at_brackets(std::string_view text) {
    constexpr std::array<std::pair<char, char>, 3> pairs = {{{'(', ')'}, {'[', ']'}, {'{', '}'}}};
    for (const auto& [open, close] : pairs) {
        const std::size_t at = text.rfind(open);
        if (text.ends_with(close) && at != std::string_view::npos) {
            return heading_if_unit({text.substr(0, at), text.substr(at)});
        }
    }
    return std::nullopt;
}

std::optional<Heading> split_at_mark(std::string_view text, char mark) {
    // "Gyro deg/s" and "Accel m/s2" have a '/' inside the unit, which the last word settles.
    const std::size_t at = text.rfind(mark);
    if (at == std::string_view::npos || at == 0) {
        return std::nullopt;
    }
    return heading_if_unit({text.substr(0, at), text.substr(at + 1)});
}

std::optional<Heading> split_at_last_word(std::string_view text, std::string_view separators) {
    const std::size_t at = text.find_last_of(separators);
    if (at == std::string_view::npos) {
        return std::nullopt;
    }
    std::optional<Heading> heading = heading_if_unit({text.substr(0, at), text.substr(at + 1)});
    if (!heading) {
        return std::nullopt;
    }
    const bool underscore = text[at] == '_';
    const bool volts = text.substr(at + 1) == "V" && underscore;
    const bool seconds = heading->unit == "s" && underscore;
    if (needs_time(heading->unit) ? !(seconds || names_time(heading->quantity))
                                  : (is_single_letter(text.substr(at + 1)) && !volts)) {
        return std::nullopt;
    }
    return heading;
}

std::optional<Heading> split_at_degree_sign(std::string_view text) {
    for (const std::string_view sign : {"°/s"sv, "°"sv, "º"sv, "%"sv}) {
        if (text.ends_with(sign) && text.size() > sign.size()) {
            return heading_if_unit({text.substr(0, text.size() - sign.size()), sign});
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<std::string> normalised_unit(std::string_view text) {
    const std::string name = lower(strip(without_brackets(strip(text))));
    const auto* const found = std::ranges::find(unit_names, name, &UnitName::name);
    return found == unit_names.end() ? std::nullopt : std::optional<std::string>(found->unit);
}

Heading split_heading(std::string_view heading) {
    const std::string_view text = strip(heading);
    if (auto split = split_at_brackets(text)) {
        return *split;
    }
    if (text.ends_with("_deg_s")) {
        return {std::string(text.substr(0, text.size() - 6)), "deg/s"};
    }
    for (const char mark : {' ', '/', ',', ';', ':'}) {
        const bool word = mark == ' ';
        if (auto split = word ? split_at_last_word(text, " _") : split_at_mark(text, mark)) {
            while (!split->quantity.empty() &&
                   std::string_view(" _-,/:").find(split->quantity.back()) != std::string_view::npos) {
                split->quantity.pop_back();
            }
            if (split->quantity.ends_with(" in")) {
                split->quantity.resize(split->quantity.size() - 3);
            }
            return *split;
        }
    }
    if (auto split = split_at_degree_sign(text)) {
        return *split;
    }
    return {std::string(text), {}};
}

bool names_time(std::string_view heading) {
    const std::string text = lower(heading);
    std::string_view rest = text;
    // The first word decides: "Time (s)", "time_s", "Elapsed time", "Zeit in s"; "Timer 2" is not one.
    while (!rest.empty() && !is_letter(rest.front())) {
        rest.remove_prefix(1);
    }
    const auto stop = std::ranges::find_if_not(rest, is_letter);
    const std::string_view word = rest.substr(0, static_cast<std::size_t>(stop - rest.begin()));
    const bool sample_time = (word == "sample" || word == "rel" || word == "relative" || word == "abs" ||
                              word == "log" || word == "run" || word == "system" || word == "total") &&
                             rest.substr(word.size()).find("time") == 1;
    return sample_time || std::ranges::find(time_words, word) != time_words.end();
}

}  // namespace jointrom
