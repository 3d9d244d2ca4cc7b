#include <table/column_names.hpp>

#include <table/decoding.hpp>
#include <table/row_split.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/table/heading.hpp>

#include <algorithm>
#include <array>
#include <charconv>
#include <map>
#include <set>

namespace jointrom {
namespace {

std::vector<std::string> cells_of(std::string_view line, char delimiter) {
    RowCells row;
    split_row(line, delimiter, row);
    std::vector<std::string> cells;
    for (const std::string_view cell : row.cells) {
        std::string text = text_as_utf8(cell);
        std::ranges::replace(text, '\n', ' ');
        std::erase(text, '\r');
        cells.push_back(std::move(text));
    }
    while (!cells.empty() && cells.back().empty()) {
        cells.pop_back();
    }
    return cells;
}

/// A line without "#", "%" or "//" in front. Tabs in front of other lines are blank cells and stay.
std::string_view without_comment_mark(std::string_view line) {
    std::string_view bare = trimmed(line);
    while (bare.starts_with('#') || bare.starts_with('%') || bare.starts_with("//")) {
        bare = trimmed(bare.substr(bare.starts_with('/') ? 2 : 1));
        line = bare;
    }
    return line;
}

/// Words, with what stands in brackets joined to the word before.
std::vector<std::string> words_with_brackets(std::string_view line) {
    std::vector<std::string> result;
    for (std::string& word : cells_of(line, ' ')) {
        const bool continues =
            !result.empty() && (word.starts_with('(') || word.starts_with('[') ||
                                std::ranges::count(result.back(), '(') > std::ranges::count(result.back(), ')') ||
                                std::ranges::count(result.back(), '[') > std::ranges::count(result.back(), ']'));
        if (continues) {
            result.back() += " " + word;
        } else {
            result.push_back(std::move(word));
        }
    }
    return result;
}

/// Parts with at least two blanks (or a tab) between them.
std::vector<std::string> parts_at_wide_blanks(std::string_view line) {
    std::string marked;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const bool wide = line[i] == '\t' || (line[i] == ' ' && i + 1 < line.size() && line[i + 1] == ' ') ||
                          (line[i] == ' ' && !marked.empty() && marked.back() == '\t');
        marked += wide ? '\t' : line[i];
    }
    marked.erase(std::unique(marked.begin(), marked.end(), [](char a, char b) { return a == '\t' && b == '\t'; }),
                 marked.end());
    return cells_of(trimmed(marked), '\t');
}

struct ChannelLine {
    std::size_t number = 0;
    std::string heading;
    std::string unit;
};

std::string unit_after_word(std::string_view text) {
    for (const std::string_view word : {"units", "unit", "Units", "Unit"}) {
        const std::size_t at = text.find(word);
        if (at == std::string_view::npos) {
            continue;
        }
        std::string_view rest = text.substr(at + word.size());
        rest = rest.substr(std::min(rest.find_first_not_of(" :=\t"), rest.size()));
        rest = rest.substr(0, rest.find_first_of(",;"));
        return normalised_unit(rest).value_or("");
    }
    return {};
}

/// A line like "Channel 3: ..." or "Column 2 = ...".
std::optional<ChannelLine> read_channel_line(std::string_view line) {
    constexpr std::string_view digits = "0123456789";
    line = trimmed(line);
    line = line.substr(std::min(line.find_first_not_of("#%/ "), line.size()));
    const std::size_t at = line.find_first_of(digits);
    if (at == std::string_view::npos || at == 0 || at > 20) {
        return std::nullopt;
    }
    const std::size_t stop = std::min(line.find_first_not_of(digits, at), line.size());
    ChannelLine result;
    std::from_chars(line.data() + at, line.data() + stop, result.number);
    std::string_view rest = trimmed(line.substr(stop));
    if (rest.empty() || (rest.front() != ':' && rest.front() != '=')) {
        return std::nullopt;
    }
    rest = trimmed(rest.substr(1));
    std::string_view name = rest.substr(0, rest.find_first_of(",;"));
    for (const char quote : {'\'', '"'}) {
        const std::size_t close = rest.starts_with(quote) ? rest.find(quote, 1) : std::string_view::npos;
        if (close != std::string_view::npos) {
            name = rest.substr(1, close - 1);
        }
    }
    result.heading = std::string(trimmed(name));
    result.unit = unit_after_word(rest.substr(name.size()));
    if (result.unit.empty()) {
        result.unit = split_heading(result.heading).unit;
    }
    return result.heading.empty() ? std::nullopt : std::optional(result);
}

}  // namespace

std::vector<std::string> header_cells(std::string_view line, char delimiter, std::size_t columns) {
    line = without_comment_mark(line);
    std::vector<std::string> cells = cells_of(line, delimiter);
    if (cells.size() == columns) {
        return cells;
    }
    if (delimiter == ' ') {
        for (auto&& other : {parts_at_wide_blanks(line), words_with_brackets(line)}) {
            if (other.size() == columns) {
                return other;
            }
        }
    }
    return cells;
}

std::optional<std::vector<std::string>> header_cells_otherwise(std::string_view line, char delimiter,
                                                               std::size_t columns) {
    for (const char other : {',', ';', '\t', '|'}) {
        if (columns > 1 && other != delimiter) {
            std::vector<std::string> cells = cells_of(without_comment_mark(line), other);
            if (cells.size() == columns) {
                return cells;
            }
        }
    }
    return std::nullopt;
}

bool is_channel_line(std::string_view line) {
    return read_channel_line(line).has_value();
}

bool is_units_row(std::span<const std::string> cells) {
    std::size_t known = 0;
    std::size_t filled = 0;
    for (const std::string& cell : cells) {
        if (!cell.empty()) {
            ++filled;
            known += normalised_unit(cell) ? 1U : 0U;
            if (parse_number(cell)) {
                return false;
            }
        }
    }
    return known > 0 && 2 * known >= filled;
}

std::optional<ChannelNames> channel_names(std::span<const std::string> lines, std::size_t columns) {
    ChannelNames names;
    for (const std::string& line : lines) {
        const std::optional<ChannelLine> channel = read_channel_line(line);
        if (channel && channel->number == names.headings.size() + 1) {
            names.headings.push_back(channel->heading);
            names.units.push_back(channel->unit);
        }
    }
    if (names.headings.size() < 2 || names.headings.size() > columns) {
        return std::nullopt;
    }
    return names;
}

std::size_t make_distinct(std::span<std::string> headings, std::size_t first) {
    std::map<std::string, std::size_t> seen;
    std::set<std::string> taken(headings.begin(), headings.end());
    std::size_t repeated = 0;
    for (std::size_t i = 0; i < headings.size(); ++i) {
        if (headings[i].empty()) {
            headings[i] = "column " + std::to_string(first + i + 1);
        }
        std::size_t& count = seen[headings[i]];
        if (++count > 1) {
            ++repeated;
            std::string name = headings[i] + "#" + std::to_string(count);
            while (taken.contains(name)) {
                name = headings[i] + "#" + std::to_string(++count);
            }
            taken.insert(name);
            headings[i] = std::move(name);
        }
    }
    return repeated;
}

}  // namespace jointrom
