#pragma once

/// \file
/// Cells of tables whose values have the unit of a column of the input.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/report/result_table.hpp>

#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Decimals that show the size of `value`: `least`, and for small sizes as many as give `figures` figures.
[[nodiscard]] inline int decimals_showing(double value, int figures, int least) {
    if (!(std::abs(value) > 0.0) || !(std::abs(value) < 1.0)) {
        return least;
    }
    const auto zeros = static_cast<int>(-std::floor(std::log10(std::abs(value)))) - 1;
    return std::max(zeros + figures, least);
}

/// Decimals for values of one quantity: two, more when all are less than 1.
[[nodiscard]] inline int decimals_for(std::span<const double> values) {
    double largest = 0.0;
    for (const double value : values) {
        largest = std::max(largest, std::isfinite(value) ? std::abs(value) : 0.0);
    }
    return decimals_showing(largest, 4, 2);
}

/// A probability, of which two figures are shown.
[[nodiscard]] inline Cell probability_cell(double p) {
    return FixedNumber{p, decimals_showing(p, 2, 4)};
}

/// A row that begins with the texts of its group.
[[nodiscard]] inline std::vector<Cell> group_cells(const std::vector<std::string>& group) {
    std::vector<Cell> cells;
    for (const std::string& text : group) {
        cells.emplace_back(text.empty() ? Cell() : Cell(text));
    }
    return cells;
}

inline void append_cells(std::vector<Cell>& row, std::initializer_list<Cell> cells) {
    row.insert(row.end(), cells.begin(), cells.end());
}

}  // namespace jointrom
