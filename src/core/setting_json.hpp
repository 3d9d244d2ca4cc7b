#pragma once

/// \file
/// Settings in JSON, whatever they are of: values as texts, and what to say of a wrong key or of text that is no JSON.

#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// A text, number, true or false as it would be typed; nothing for another value.
template <typename Json>
std::optional<std::string> setting_text_of(const Json& value) {
    if (value.is_string()) {
        return value.template get<std::string>();
    }
    if (value.is_number_integer() || value.is_boolean()) {
        return value.dump();
    }
    if (value.is_number()) {
        return shortest_text(value.template get<double>());
    }
    return std::nullopt;
}

inline std::string advice_for_unknown_key(std::string_view key, const std::vector<std::string>& known) {
    const std::vector<std::string_view> names(known.begin(), known.end());
    const auto near = nearest(key, names);
    return near ? fmt::format("Did you mean {}?", *near) : "Settings are named as the options, with _ for -.";
}

/// Why Json::parse() refused a text: line, column and what was expected there, or a number that is too large.
inline std::string why_not_read(const nlohmann::json::exception& error) {
    constexpr int number_too_large = 406;
    const std::string what = error.what();
    const std::string reason = what.substr(what.find(']') + 2);
    return error.id == number_too_large ? reason : "the file is no JSON: " + reason;
}

}  // namespace jointrom
