#include "analysis/setting_text.hpp"

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>

#include <cmath>

namespace jointrom {

void refuse_setting(std::string_view name, std::string_view text, std::string_view expected) {
    const std::vector<std::string> choices = setting_choices(name);
    const auto near = nearest(text, std::vector<std::string_view>(choices.begin(), choices.end()));
    throw Failure(FailureKind::usage, "setting-invalid", fmt::format("{} is '{}', expected {}", name, text, expected),
                  near ? fmt::format("Did you mean {}?", *near) : std::string());
}

double number_setting(std::string_view name, std::string_view text) {
    const auto value = parse_number(text);
    if (!value) {
        refuse_setting(name, text, "a number such as 12.5");
    }
    return *value;
}

double positive_setting(std::string_view name, std::string_view text) {
    const auto value = parse_number(text);
    if (!value || *value <= 0.0) {
        refuse_setting(name, text, "a number above 0");
    }
    return *value;
}

std::size_t count_setting(std::string_view name, std::string_view text) {
    const auto value = parse_number(text);
    if (!value || *value < 1.0 || *value > 1e9 || *value != std::floor(*value)) {
        refuse_setting(name, text, "a whole number from 1");
    }
    return static_cast<std::size_t>(*value);
}

bool switch_setting(std::string_view name, std::string_view text) {
    if (text != "true" && text != "false") {
        refuse_setting(name, text, "true or false");
    }
    return text == "true";
}

TimeWindow window_setting(std::string_view name, std::string_view text) {
    const std::size_t comma = std::min(text.find(','), text.size());
    const auto start = parse_number(text.substr(0, comma));
    const auto end = parse_number(text.substr(std::min(comma + 1, text.size())));
    if (!start || !end || *start >= *end) {
        refuse_setting(name, text, "START,END in seconds, such as 0.5,2");
    }
    return {Seconds(*start), Seconds(*end)};
}

std::string window_text(const TimeWindow& window) {
    return window.is_set() ? shortest_text(window.start.value()) + "," + shortest_text(window.end.value())
                           : std::string();
}

std::vector<double> number_list_setting(std::string_view name, std::string_view text, std::string_view example) {
    std::vector<double> values;
    for (std::string_view rest = text;;) {
        const std::size_t comma = rest.find(',');
        const auto value = parse_number(rest.substr(0, comma));
        if (!value) {
            refuse_setting(name, text, fmt::format("numbers between commas, such as {}", example));
        }
        values.push_back(*value);
        if (comma == std::string_view::npos) {
            return values;
        }
        rest.remove_prefix(comma + 1);
    }
}

std::pair<std::string, std::string> named_value(std::string_view text) {
    const std::size_t equals = text.find('=');
    if (equals == std::string_view::npos) {
        return {std::string(), std::string(text)};
    }
    return {std::string(text.substr(0, equals)), std::string(text.substr(equals + 1))};
}

}  // namespace jointrom
