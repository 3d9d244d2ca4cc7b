#include "batch/entry_columns.hpp"

#include <jointrom/batch/name_pattern.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {
namespace {

[[noreturn]] void refuse_pattern(std::string_view text, std::string_view why) {
    throw Failure(FailureKind::usage, "pattern-invalid", fmt::format("the pattern '{}' {}", text, why),
                  "Write '{participant}_{side}_{trial}.csv', for instance.");
}

}  // namespace

NamePattern::NamePattern(std::string_view text) {
    std::string_view rest = text;
    while (!rest.empty()) {
        const char first = rest.front();
        const std::size_t end = first == '*'   ? 1
                                : first == '{' ? rest.find('}') + 1
                                               : std::min(rest.find_first_of("{*"), rest.size());
        if (end == 0) {
            refuse_pattern(text, "has a brace that is not closed");
        }
        const bool is_place = first == '*' || first == '{';
        const std::string name(first == '{' ? rest.substr(1, end - 2) : first == '*' ? "" : rest.substr(0, end));
        if (first == '{' && (find_entry_column(name) == nullptr || name == "file") &&
            find_entry_setting(name) == nullptr) {
            throw unknown_entry_name(name, "place");
        }
        if (is_place && !parts_.empty() && parts_.back().is_place) {
            refuse_pattern(text, "has two places with nothing between them");
        }
        if (first == '{' &&
            std::ranges::any_of(parts_, [&](const Part& part) { return part.is_place && part.text == name; })) {
            refuse_pattern(text, fmt::format("has the place {} twice", name));
        }
        parts_.push_back({is_place, name});
        rest.remove_prefix(end);
    }
    if (std::ranges::none_of(parts_, &Part::is_place)) {
        refuse_pattern(text, "has no place in braces");
    }
}

bool NamePattern::fit_from(std::size_t part, std::string_view rest, std::vector<std::string_view>& values) const {
    if (part == parts_.size()) {
        return rest.empty();
    }
    if (!parts_[part].is_place) {
        return rest.starts_with(parts_[part].text) && fit_from(part + 1, rest.substr(parts_[part].text.size()), values);
    }
    const std::size_t longest = std::min(rest.find('/'), rest.size());
    for (std::size_t length = 1; length <= longest; ++length) {
        values.push_back(rest.substr(0, length));
        if (fit_from(part + 1, rest.substr(length), values)) {
            return true;
        }
        values.pop_back();
    }
    return false;
}

std::optional<std::vector<std::pair<std::string, std::string>>> NamePattern::fit(std::string_view name) const {
    std::vector<std::string_view> values;
    if (!fit_from(0, name, values)) {
        return std::nullopt;
    }
    std::vector<std::pair<std::string, std::string>> result;
    std::size_t next = 0;
    for (const Part& part : parts_) {
        if (part.is_place) {
            if (!part.text.empty()) {
                result.emplace_back(part.text, std::string(values[next]));
            }
            ++next;
        }
    }
    return result;
}

std::size_t NamePattern::depth() const noexcept {
    std::size_t count = 0;
    for (const Part& part : parts_) {
        count += part.is_place ? 0 : static_cast<std::size_t>(std::ranges::count(part.text, '/'));
    }
    return count;
}

}  // namespace jointrom
