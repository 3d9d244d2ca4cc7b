#include <jointrom/batch/class_columns.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>

namespace jointrom {
namespace {

char small(char letter) {
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter + 32) : letter;
}

std::vector<std::string> present(const std::vector<std::string>& headings,
                                 std::initializer_list<std::string_view> names) {
    std::vector<std::string> result;
    for (const std::string_view name : names) {
        if (const auto heading = find_heading(headings, name)) {
            result.push_back(*heading);
        }
    }
    return result;
}

std::vector<std::string> all_named(const std::vector<std::string>& headings, const std::vector<std::string>& names,
                                   std::string_view option) {
    std::vector<std::string> result;
    for (const std::string& name : names) {
        const std::string heading = heading_named(headings, name, option);
        if (std::ranges::find(result, heading) == result.end()) {
            result.push_back(heading);
        }
    }
    return result;
}

}  // namespace

std::optional<std::string> find_heading(const std::vector<std::string>& headings, std::string_view name) {
    const auto found = std::ranges::find_if(
        headings, [&](const std::string& heading) { return std::ranges::equal(heading, name, {}, small, small); });
    return found == headings.end() ? std::nullopt : std::optional(*found);
}

std::string heading_named(const std::vector<std::string>& headings, std::string_view name, std::string_view option) {
    if (const auto heading = find_heading(headings, name)) {
        return *heading;
    }
    const std::vector<std::string_view> known(headings.begin(), headings.end());
    const auto near = nearest(name, known);
    throw Failure(FailureKind::usage, "no-such-column",
                  fmt::format("{} {}: the table has the columns {}", option, name, fmt::join(headings, ", ")),
                  near ? fmt::format("Is '{}' meant?", *near) : "Name one of these.");
}

std::vector<std::string> value_columns(const std::vector<std::string>& headings,
                                       const std::vector<std::string>& named) {
    if (!named.empty()) {
        return all_named(headings, named, "--value");
    }
    std::vector<std::string> found = present(headings, {"arc_deg", "positive_deg", "negative_deg"});
    if (found.empty()) {
        throw Failure(FailureKind::usage, "value-unknown",
                      fmt::format("there is no column arc_deg among {}", fmt::join(headings, ", ")),
                      "Name the measured column with --value COLUMN.");
    }
    return found;
}

std::vector<std::string> group_columns(const std::vector<std::string>& headings,
                                       const std::optional<std::vector<std::string>>& named) {
    return named ? all_named(headings, *named, "--by") : present(headings, {"joint", "motion", "side", "condition"});
}

std::string participant_column(const std::vector<std::string>& headings, const std::string& named) {
    if (!named.empty()) {
        return heading_named(headings, named, "--participant");
    }
    const std::vector<std::string> found = present(headings, {"participant", "subject"});
    return found.empty() ? std::string() : found.front();
}

std::vector<std::string> filled_columns(const LongTable& table, const std::vector<std::string>& names) {
    std::vector<std::string> result;
    std::ranges::copy_if(names, std::back_inserter(result),
                         [&](const std::string& name) { return table.find_text(name)->named() > 0; });
    return result;
}

}  // namespace jointrom
