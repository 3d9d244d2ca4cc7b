#pragma once

/// \file
/// Columns that belong together: trials side by side, or channels under a common label.

#include <table/cell.hpp>

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Columns first <= c < last (from 0) that belong together.
struct ColumnGroup {
    std::size_t first = 0;
    std::size_t last = 0;
    std::string label;
};

/// Groups under labels that stand at equal distances of at least two columns; none if there are not at least two such.
/// \param labels  cells of the line above the header
[[nodiscard]] std::vector<ColumnGroup> labelled_groups(std::span<const std::string> labels, std::size_t columns);

/// Trials side by side: the groups, if each begins with a time, or else headings that repeat from a time on. One group
/// of all columns where there is neither.
/// \param is_time  one a column
[[nodiscard]] std::vector<ColumnGroup> trials_side_by_side(const std::vector<ColumnGroup>& groups,
                                                           std::span<const std::string> headings,
                                                           const std::vector<bool>& is_time);

}  // namespace jointrom
