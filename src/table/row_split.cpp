#include <table/row_split.hpp>

#include <algorithm>
#include <optional>

namespace jointrom {
namespace {

constexpr std::string_view no_break_space = "\xC2\xA0";

bool is_blank(char c) {
    return c == ' ' || c == '\t' || c == '\r';
}

struct QuotedCell {
    std::size_t after = 0;  ///< behind the closing quote and blanks
    bool doubled = false;   ///< holds quotes written twice
};

/// The quoted cell whose opening quote stands at `open`.
std::optional<QuotedCell> find_quoted(std::string_view text, std::size_t open, char delimiter) {
    QuotedCell cell;
    for (std::size_t i = open + 1; i < text.size(); ++i) {
        if (text[i] != '"') {
            continue;
        }
        if (i + 1 < text.size() && text[i + 1] == '"') {
            cell.doubled = true;
            ++i;
            continue;
        }
        cell.after = i + 1;
        while (cell.after < text.size() && is_blank(text[cell.after]) && text[cell.after] != delimiter) {
            ++cell.after;
        }
        const bool closed = cell.after == text.size() || text[cell.after] == delimiter || text[cell.after] == '\n' ||
                            (delimiter == ' ' && cell.after > i + 1);
        return closed ? std::optional(cell) : std::nullopt;
    }
    return std::nullopt;
}

std::string without_doubled_quotes(std::string_view text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        result += text[i];
        i += text[i] == '"' ? 1U : 0U;
    }
    return result;
}

std::size_t skip_blanks(std::string_view line, std::size_t i, char delimiter) {
    while (i < line.size() && is_blank(line[i]) && (line[i] != delimiter || delimiter == ' ')) {
        ++i;
    }
    return i;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    while (true) {
        if (!text.empty() && is_blank(text.front())) {
            text.remove_prefix(1);
        } else if (!text.empty() && is_blank(text.back())) {
            text.remove_suffix(1);
        } else if (text.starts_with(no_break_space)) {
            text.remove_prefix(no_break_space.size());
        } else if (text.ends_with(no_break_space)) {
            text.remove_suffix(no_break_space.size());
        } else {
            return text;
        }
    }
}

bool holds_text(std::string_view line) {
    using namespace std::string_view_literals;
    return line.find_first_not_of(" \t\r\n,;|\0\x1A"sv) != std::string_view::npos;
}

void split_row(std::string_view line, char delimiter, RowCells& row) {
    row.cells.clear();
    row.unquoted.clear();
    row.quoted = false;
    if (delimiter == ' ') {
        line = trimmed(line);
        if (line.empty()) {
            return;
        }
    }
    std::size_t i = 0;
    while (true) {
        i = skip_blanks(line, i, delimiter);
        std::size_t stop = i;
        std::optional<QuotedCell> quoted;
        if (i < line.size() && line[i] == '"') {
            quoted = find_quoted(line, i, delimiter);
        }
        if (quoted) {
            row.quoted = true;
            stop = quoted->after;
            std::string_view content = trimmed(line.substr(i, stop - i));
            content = content.substr(1, content.size() - 2);
            if (quoted->doubled) {
                content = row.unquoted.emplace_back(without_doubled_quotes(content));
            }
            row.cells.push_back(trimmed(content));
        } else {
            while (stop < line.size() && (delimiter == ' ' ? !is_blank(line[stop]) : line[stop] != delimiter)) {
                ++stop;
            }
            row.cells.push_back(trimmed(line.substr(i, stop - i)));
        }
        if (stop >= line.size()) {
            return;
        }
        i = delimiter == ' ' ? stop : stop + 1;
    }
}

std::size_t row_end(std::string_view text, std::size_t begin, char delimiter) {
    const std::size_t line_end = std::min(text.find('\n', begin), text.size());
    if (text.substr(begin, line_end - begin).find('"') == std::string_view::npos) {
        return line_end;
    }
    std::size_t i = begin;
    while (i < text.size()) {
        i = skip_blanks(text, i, delimiter);
        if (i < text.size() && text[i] == '"') {
            const std::optional<QuotedCell> quoted = find_quoted(text, i, delimiter);
            if (quoted) {
                i = quoted->after;
            }
        }
        while (i < text.size() && text[i] != '\n' && (delimiter == ' ' ? !is_blank(text[i]) : text[i] != delimiter)) {
            ++i;
        }
        if (i >= text.size() || text[i] == '\n') {
            return std::min(i, text.size());
        }
        ++i;
    }
    return text.size();
}

}  // namespace jointrom
