#include <jointrom/recording/stated_rate.hpp>

#include "words.hpp"

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <initializer_list>
#include <string_view>
#include <vector>

namespace jointrom {
namespace {

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

/// A number in a line and the text behind it up to the next number.
struct NumberInText {
    double value;
    std::string behind;
};

std::string small_without_blanks(std::string_view text) {
    std::string result;
    for (const char c : text) {
        if (c >= 'A' && c <= 'Z') {
            result += static_cast<char>(c - 'A' + 'a');
        } else if (std::string_view(" \t,;:|\"'()[]").find(c) == std::string_view::npos) {
            result += c;
        }
    }
    return result;
}

/// Unsigned decimal numbers with point or comma; digits that belong to a name ("CH1") are no number.
std::vector<NumberInText> numbers_in(std::string_view line) {
    std::vector<NumberInText> numbers;
    std::size_t behind_last = 0;
    for (std::size_t i = 0; i < line.size();) {
        if (!is_digit(line[i])) {
            ++i;
            continue;
        }
        std::size_t end = i;
        bool has_mark = false;
        while (end < line.size() &&
               (is_digit(line[end]) || (!has_mark && end + 1 < line.size() && (line[end] == '.' || line[end] == ',') &&
                                        is_digit(line[end + 1])))) {
            has_mark = has_mark || !is_digit(line[end]);
            ++end;
        }
        std::string text(line.substr(i, end - i));
        std::ranges::replace(text, ',', '.');
        const auto value = parse_number(text);
        if (value && (i == 0 || !is_letter(line[i - 1]))) {
            if (!numbers.empty()) {
                numbers.back().behind = small_without_blanks(line.substr(behind_last, i - behind_last));
            }
            numbers.push_back({*value, {}});
            behind_last = end;
        }
        i = end;
    }
    if (!numbers.empty()) {
        numbers.back().behind = small_without_blanks(line.substr(behind_last));
    }
    return numbers;
}

bool starts_with_any(std::string_view text, std::initializer_list<std::string_view> beginnings) {
    return std::ranges::any_of(beginnings, [&](std::string_view beginning) { return text.starts_with(beginning); });
}

/// What a line is about.
enum class Topic { other, rate, interval };

Topic topic_of(const std::vector<std::string>& words) {
    if (any_fits(words,
                 {"filter*", "*filter", "*pass", "cutoff", "cut",   "corner", "notch", "mains", "band*",   "stop",
                  "*grenz*", "coupure", "corte", "heart",  "herz*", "pulse",  "baud",  "bit",   "refresh", "frame"})) {
        return Topic::other;
    }
    const bool sampling = any_fits(words, {"sampl*", "abtast*", "mess*", "echantillon*", "muestr*", "campion*",
                                           "amostr*", "acquisition", "logging", "log", "data", "aufnahme*", "scan*"});
    if (any_fits(words, {"interval*", "*intervall", "period", "periode*", "periodo", "dt", "increment", "step"}) &&
        (sampling || words.size() <= 4)) {
        return Topic::interval;
    }
    if (any_fits(words, {"rate*", "*rate", "freq*", "*frequenz", "frec*", "cadence", "fs", "tasa", "taxa", "fe"}) &&
        (sampling || words.size() <= 4)) {
        return Topic::rate;
    }
    return Topic::other;
}

/// Rates in hertz per unit of rate, and seconds per unit of time, by how the unit starts.
std::optional<double> hertz_per(std::string_view unit) {
    if (starts_with_any(unit, {"khz", "ksps", "ks/s"})) {
        return 1e3;
    }
    return starts_with_any(unit, {"hz", "hertz", "1/s", "/s", "persec"}) ? std::optional(1.0) : std::nullopt;
}

std::optional<double> seconds_per(std::string_view unit) {
    if (starts_with_any(unit, {"ms", "milli"})) {
        return 1e-3;
    }
    if (starts_with_any(unit, {"us", "micro", "\xC2\xB5s", "\xCE\xBCs"})) {
        return 1e-6;
    }
    return starts_with_any(unit, {"s"}) ? std::optional(1.0) : std::nullopt;
}

/// The factor of the unit behind a number or, where nothing stands behind it, in front: "Interval [ms];5".
template <typename Factor>
std::optional<double> factor_of(const NumberInText& number, const std::vector<std::string>& words, Factor factor,
                                double otherwise) {
    if (!number.behind.empty()) {
        return factor(number.behind);
    }
    // "kHz" comes apart at its capital, so it is looked for before "hz".
    for (const std::string_view unit : {"khz", "hz", "ms", "us", "s", "sec", "seconds"}) {
        const auto found = any_fits(words, {unit}) ? factor(unit) : std::nullopt;
        if (found) {
            return found;
        }
    }
    return otherwise;
}

std::optional<double> rate_hz_of(std::string_view line) {
    const std::vector<std::string> words = words_of(line);
    const Topic topic = topic_of(words);
    for (const NumberInText& number : numbers_in(line)) {
        if (number.value <= 0.0) {
            continue;
        }
        if (starts_with_any(number.behind, {"samplespersec", "samples/s", "sample/s", "s/s", "sps", "sa/s",
                                            "readingspersec", "readings/s", "werte/s", "points/s"})) {
            return number.value;
        }
        if (topic == Topic::rate) {
            if (const auto factor = factor_of(number, words, hertz_per, 1.0)) {
                return number.value * *factor;
            }
        }
        if (topic == Topic::interval) {
            if (const auto factor = factor_of(number, words, seconds_per, number.value < 1.0 ? 1.0 : 1e-3)) {
                return 1.0 / (number.value * *factor);
            }
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<StatedRate> find_stated_rate(std::span<const std::string> lines) {
    std::optional<StatedRate> found;
    for (const std::string& line : lines) {
        const auto rate_hz = rate_hz_of(line);
        if (!rate_hz) {
            continue;
        }
        if (found && std::abs(found->rate.value() - *rate_hz) > 1e-6 * *rate_hz) {
            return std::nullopt;
        }
        if (!found) {
            found = {Hertz(*rate_hz), line};
        }
    }
    return found;
}

}  // namespace jointrom
