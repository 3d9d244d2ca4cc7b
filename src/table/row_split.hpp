#pragma once

/// \file
/// A line of text cut into cells.

#include <cstddef>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// Blanks as they stand around cells: space, tab, carriage return, and the no-break space of UTF-8.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// Whether there is anything but blanks, delimiters and zero bytes.
[[nodiscard]] bool holds_text(std::string_view line);

/// The cells of one row, without the blanks and quotes around them.
struct RowCells {
    std::vector<std::string_view> cells;
    bool quoted = false;               ///< some cell stood in quotes
    std::deque<std::string> unquoted;  ///< cells whose quotes were doubled
};

/// Cuts `line` (without its line end) at each delimiter outside quotes. With ' ', runs of blanks delimit and those at
/// either end count for nothing. A quote counts only at the front of a cell, and only if it is closed again before a
/// delimiter or the end (RFC 4180); otherwise it is a letter like any other.
void split_row(std::string_view line, char delimiter, RowCells& row);

/// The end (of its '\n', or the size) of the row that begins at `begin`: the first line end outside quotes. A quote
/// that is not closed within `text` counts for nothing.
[[nodiscard]] std::size_t row_end(std::string_view text, std::size_t begin, char delimiter);

}  // namespace jointrom
