#pragma once

/// \file
/// Rows of large tables as text, one at a time, under columns that are the same whatever the rows hold. For tables that
/// are written piece by piece; a whole Report has render.hpp.

#include <jointrom/report/result_table.hpp>

#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// A column, and whether its cells are values with uncertainty, which take three columns: KEY, KEY with u, KEY with
/// u95.
struct RowColumn {
    const ColumnKind* kind;
    bool measured;
};

/// \param keys of the column catalogue; one that ends in '~' is measured, e.g. "arc_deg~"
[[nodiscard]] std::vector<RowColumn> row_columns(std::initializer_list<std::string_view> keys);

/// Names of the columns as they stand in the file, e.g. arc_deg, arc_u_deg, arc_u95_deg.
[[nodiscard]] std::vector<std::string> column_names(std::span<const RowColumn> columns);

/// The header row of a CSV file, with its line end.
[[nodiscard]] std::string csv_header(std::span<const RowColumn> columns);

/// Appends cells with commas between them, as csv_report() writes them. No line end.
/// \pre one cell a column
void append_csv_cells(std::span<const RowColumn> columns, std::span<const Cell> cells, std::string& text);

/// Appends `"name":value` pairs with commas between them; nothing is null. No braces, no line end.
/// \pre one cell a column
void append_json_cells(std::span<const RowColumn> columns, std::span<const Cell> cells, std::string& text);

}  // namespace jointrom
