#include <jointrom/recording/column_name.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <charconv>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {
namespace {

std::string small_letters(std::string_view text) {
    std::string result(text);
    std::ranges::transform(result, result.begin(),
                           [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return result;
}

std::optional<std::size_t> whole_number(std::string_view text) {
    std::size_t number = 0;
    const auto [stop, status] = std::from_chars(text.data(), text.data() + text.size(), number);
    return status == std::errc() && stop == text.data() + text.size() ? std::optional(number) : std::nullopt;
}

std::string quoted_list(const std::vector<std::string>& names) {
    std::string list;
    for (const std::string& name : names) {
        list += (list.empty() ? "'" : ", '") + name + "'";
    }
    return list;
}

/// How a column may be called, in small letters.
struct Names {
    std::string heading;
    std::string name;

    [[nodiscard]] bool either(const std::function<bool(const std::string&)>& fits) const {
        return fits(heading) || fits(name);
    }
};

[[noreturn]] void refuse_ambiguous(const Table& table, std::string_view name, std::string_view option,
                                   const std::vector<std::size_t>& found) {
    std::vector<std::string> headings;
    for (const std::size_t index : found) {
        headings.push_back(table.description.headings[index]);
    }
    throw Failure(FailureKind::usage, "column-ambiguous",
                  std::string(option) + ": '" + std::string(name) + "' fits several columns: " + quoted_list(headings),
                  "Give more of the heading, or the column's number.");
}

[[noreturn]] void refuse_missing(const Table& table, std::string_view name, std::string_view option) {
    std::vector<std::string> known = table.description.headings;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        known.push_back(column_name(table, i));
    }
    for (const std::string& heading : table.description.headings) {
        known.push_back(heading.substr(0, heading.find(' ')));  // a part of a heading is enough
    }
    const auto meant = nearest(name, std::vector<std::string_view>(known.begin(), known.end()));
    throw Failure(FailureKind::usage, "column-missing",
                  std::string(option) + ": there is no column '" + std::string(name) +
                      "'; there are: " + quoted_list(table.description.headings),
                  meant ? "Did you mean '" + std::string(*meant) + "'?" : "Give a heading or the column's number.");
}

}  // namespace

std::string column_name(const Table& table, std::size_t index) {
    return column_name(table.description.headings[index]);
}

std::string column_name(const std::string& heading) {
    // A heading that was told apart from an equal one: "Angle (deg)#2".
    const std::size_t mark = std::min(heading.rfind('#'), heading.size());
    const bool is_repeated =
        mark > 0 && whole_number(std::string_view(heading).substr(std::min(mark + 1, heading.size())));
    const std::size_t end = is_repeated ? mark : heading.size();
    const std::string name = split_heading(std::string_view(heading).substr(0, end)).quantity;
    return name.empty() ? heading : name + heading.substr(end);
}

std::size_t find_column(const Table& table, std::string_view name, std::string_view option) {
    std::vector<Names> columns;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        columns.push_back({small_letters(table.description.headings[i]), small_letters(column_name(table, i))});
    }
    const std::string typed = small_letters(name);
    const std::optional<std::size_t> number = whole_number(name);
    const std::function<bool(std::size_t)> ways[] = {
        [&](std::size_t i) { return columns[i].heading == typed; },
        [&](std::size_t i) { return columns[i].name == typed; },
        [&](std::size_t i) { return table.columns[i].number == number; },
        [&](std::size_t i) { return columns[i].either([&](const auto& text) { return text.starts_with(typed); }); },
        [&](std::size_t i) {
            return columns[i].either([&](const auto& text) { return text.find(typed) != std::string::npos; });
        }};
    for (const auto& way : ways) {
        std::vector<std::size_t> found;
        for (std::size_t i = 0; i < columns.size() && !typed.empty(); ++i) {
            if (way(i)) {
                found.push_back(i);
            }
        }
        if (found.size() == 1) {
            return found.front();
        }
        if (found.size() > 1) {
            refuse_ambiguous(table, name, option, found);
        }
    }
    refuse_missing(table, name, option);
}

}  // namespace jointrom
