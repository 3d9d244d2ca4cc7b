#pragma once

/// \file
/// Rows of a table that have the same texts in some columns.

#include <jointrom/batch/long_table.hpp>

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Groups in the order of their texts, column by column.
struct RowGroups {
    std::vector<const TextColumn*> by;
    std::vector<std::size_t> begins;  ///< one more than groups
    std::vector<std::uint32_t> rows;  ///< of the first group, then of the second, ...

    [[nodiscard]] std::size_t size() const { return begins.size() - 1; }
    [[nodiscard]] std::span<const std::uint32_t> rows_of(std::size_t group) const;
    /// One text a column. \pre the group has a row, as all have that are made from rows
    [[nodiscard]] std::vector<std::string> texts_of(std::size_t group) const;
};

/// A number for each row, the same for rows with the same texts, in the order of the texts; from 0, without holes.
struct RowNumbers {
    std::vector<std::uint32_t> of_row;
    std::size_t count = 0;
};

/// \param columns their tables have `rows` rows; without columns all rows are alike
[[nodiscard]] RowNumbers row_numbers(std::span<const TextColumn* const> columns, std::size_t rows);

/// \return one group of all rows without columns
[[nodiscard]] RowGroups row_groups(std::span<const TextColumn* const> columns, std::size_t rows);

}  // namespace jointrom
