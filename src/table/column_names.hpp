#pragma once

/// \file
/// Names and units of columns from the lines above a table.

#include <table/head_rows.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// The cells of a line of names, cut by the delimiter; where blanks delimit, so that there are `columns` of them if
/// that is possible: at wide blanks only, or not within brackets. A leading comment mark is dropped. In UTF-8.
[[nodiscard]] std::vector<std::string> header_cells(std::string_view line, char delimiter, std::size_t columns);

/// The same by whichever other delimiter gives `columns` cells (a header of commas above a table of tabs), if any does.
[[nodiscard]] std::optional<std::vector<std::string>> header_cells_otherwise(std::string_view line, char delimiter,
                                                                             std::size_t columns);

/// Whether the cells of a row are units: none is a number, and at least half of those that are not blank are known.
[[nodiscard]] bool is_units_row(std::span<const std::string> cells);

struct ChannelNames {
    std::vector<std::string> headings;
    std::vector<std::string> units;
};

/// Names from numbered lines such as "Channel 3: 'Elbow', 691 values, engineering units: deg": the text in quotes, or
/// else up to the first comma; the unit behind "unit" or "units", or from the name. Nothing unless the numbers run from
/// 1 to at least 2 and no further than `columns`.
[[nodiscard]] std::optional<ChannelNames> channel_names(std::span<const std::string> lines, std::size_t columns);

/// Whether a line is one that channel_names() reads.
[[nodiscard]] bool is_channel_line(std::string_view line);

/// Fills blank names with "column N" and tells repeated names apart as NAME#2, NAME#3; returns how many were repeated.
/// \param first  number of the first column, from 0
std::size_t make_distinct(std::span<std::string> headings, std::size_t first = 0);

}  // namespace jointrom
