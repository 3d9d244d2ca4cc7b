#include "answer_quantity.hpp"

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace jointrom {
namespace {

struct Suffix {
    std::string_view suffix;
    std::string_view unit;
};

/// Longest first.
constexpr auto suffixes = std::to_array<Suffix>({{"_deg_s", "deg/s"},
                                                 {"_deg", "deg"},
                                                 {"_pct", "%"},
                                                 {"_hz", "Hz"},
                                                 {"_mv", "mV"},
                                                 {"_nm", "N m"},
                                                 {"_s", "s"},
                                                 {"_w", "W"},
                                                 {"_j", "J"},
                                                 {"_n", "N"}});

Suffix suffix_of(std::string_view column) {
    const auto found = std::ranges::find_if(suffixes, [&](const Suffix& s) { return column.ends_with(s.suffix); });
    return found == suffixes.end() ? Suffix{} : *found;
}

/// Words that people write, and the column that they mean.
constexpr auto usual_words =
    std::to_array<std::pair<std::string_view, std::string_view>>({{"range of motion", "arc_deg"},
                                                                  {"range", "arc_deg"},
                                                                  {"rom", "arc_deg"},
                                                                  {"total arc", "arc_deg"},
                                                                  {"number of repetitions", "repetitions"},
                                                                  {"reps", "repetitions"},
                                                                  {"mean arc", "mean_arc_deg"},
                                                                  {"mean range of motion", "mean_arc_deg"},
                                                                  {"peak velocity", "peak_velocity_deg_s"},
                                                                  {"peak angular velocity", "peak_velocity_deg_s"},
                                                                  {"peak speed", "peak_velocity_deg_s"}});

constexpr double deg_per_rad = 180.0 / std::numbers::pi;

struct UnitWord {
    std::string_view word;
    std::string_view unit;  ///< of the column
    double factor;
};

constexpr auto unit_words = std::to_array<UnitWord>({{"deg", "deg", 1.0},
                                                     {"degree", "deg", 1.0},
                                                     {"degrees", "deg", 1.0},
                                                     {"°", "deg", 1.0},
                                                     {"rad", "deg", deg_per_rad},
                                                     {"radians", "deg", deg_per_rad},
                                                     {"deg/s", "deg/s", 1.0},
                                                     {"°/s", "deg/s", 1.0},
                                                     {"rad/s", "deg/s", deg_per_rad},
                                                     {"s", "s", 1.0},
                                                     {"ms", "s", 0.001},
                                                     {"%", "%", 1.0},
                                                     {"hz", "Hz", 1.0},
                                                     {"mv", "mV", 1.0},
                                                     {"n m", "N m", 1.0},
                                                     {"nm", "N m", 1.0},
                                                     {"w", "W", 1.0},
                                                     {"j", "J", 1.0},
                                                     {"n", "N", 1.0}});

std::string lower(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return result;
}

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    return first == std::string_view::npos ? std::string_view()
                                           : text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// What a unit's number is multiplied by; nothing when it is another kind of unit.
std::optional<double> factor_of(std::string_view unit, std::string_view column_unit) {
    if (unit.empty()) {
        return 1.0;
    }
    const std::string word = lower(unit);
    const auto found = std::ranges::find_if(
        unit_words, [&](const UnitWord& entry) { return entry.word == word && entry.unit == column_unit; });
    return found == unit_words.end() ? std::nullopt : std::optional(found->factor);
}

double last_digit_of(std::string_view number) {
    if (number.find_first_of("eE") != std::string_view::npos) {
        return 0.0;
    }
    const auto point = number.find('.');
    return point == std::string_view::npos ? 1.0 : std::pow(10.0, -static_cast<double>(number.size() - point - 1));
}

}  // namespace

std::string plain_words(std::string_view text) {
    std::string result;
    for (const char c : lower(trimmed(text))) {
        if (c != ' ' && c != '_' && c != '-' && c != '/') {
            result += c;
        } else if (!result.empty() && result.back() != ' ') {
            result += ' ';
        }
    }
    while (result.ends_with(' ')) {
        result.pop_back();
    }
    return result;
}

std::string unit_of_column(std::string_view column) {
    return std::string(suffix_of(column).unit);
}

std::string expanded_column(std::string_view column) {
    const std::string_view suffix = suffix_of(column).suffix;
    return std::string(column.substr(0, column.size() - suffix.size())).append("_u95").append(suffix);
}

QuantityName quantity_named(std::string_view typed, const ComputedTrial& trial) {
    const std::string words = plain_words(typed);
    if (words.empty()) {
        return {};
    }
    for (const auto& [column, value] : trial.values) {
        const std::string_view without_unit =
            std::string_view(column).substr(0, column.size() - suffix_of(column).suffix.size());
        if (words == plain_words(column) || words == plain_words(without_unit)) {
            return {.column = column};
        }
    }
    if (words == plain_words(trial.positive_direction)) {
        return {.column = "positive_deg"};
    }
    if (words == plain_words(trial.negative_direction)) {
        return {.column = "negative_deg", .scale = -1.0};
    }
    for (const auto& [word, column] : usual_words) {
        if (words == word) {
            return {.column = std::string(column)};
        }
    }
    return {};
}

std::vector<std::string> known_quantities(const ComputedTrial& trial) {
    std::vector<std::string> known;
    for (const auto& [column, value] : trial.values) {
        if (column.find("_u_") == std::string::npos && column.find("_u95_") == std::string::npos) {
            known.push_back(column);
        }
    }
    for (const std::string& direction : {trial.positive_direction, trial.negative_direction}) {
        if (!direction.empty()) {
            known.push_back(direction);
        }
    }
    known.emplace_back("range of motion");
    return known;
}

std::optional<NumberOnSheet> number_on_sheet(std::string_view text, std::string_view unit,
                                             std::string_view column_unit) {
    std::string number(trimmed(text));
    const auto end = number.find_first_not_of("0123456789.,+-eE");
    std::string written =
        end == std::string::npos ? std::string() : std::string(trimmed(std::string_view(number).substr(end)));
    number = std::string(trimmed(std::string_view(number).substr(0, end)));
    if (std::ranges::count(number, ',') == 1 && number.find('.') == std::string::npos) {
        std::ranges::replace(number, ',', '.');
    }
    const auto value = parse_number(number);
    const auto factor = factor_of(trimmed(unit), column_unit);
    const auto written_factor = factor_of(written, column_unit);
    if (!value || !factor || !written_factor) {
        return std::nullopt;
    }
    const double scale = written.empty() ? *factor : *written_factor;
    return NumberOnSheet{*value * scale, 0.5 * last_digit_of(number) * scale};
}

}  // namespace jointrom
