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

/// Decimals that show four figures of the largest of `values`, and at least two.
[[nodiscard]] inline int decimals_for(std::span<const double> values) {
    double largest = 0.0;
    for (const double value : values) {
        largest = std::max(largest, std::isfinite(value) ? std::abs(value) : 0.0);
    }
    return largest > 0.0 ? std::clamp(3 - std::ilogb(largest) * 3 / 10, 2, 12) : 2;
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
