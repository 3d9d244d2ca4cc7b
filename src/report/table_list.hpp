#pragma once

/// \file
/// Which tables each result has, and what their columns hold; JSON Schemas are made from it.

#include <span>
#include <string_view>

namespace jointrom {

enum class TableShape {
    rows,           ///< an array of rows, always there
    optional_rows,  ///< an array of rows, there when it was asked for
    series,         ///< arrays of equal length, one a column
    file            ///< a CSV file of its own, where a value with uncertainty takes three columns
};

struct TableKind {
    std::string_view report;  ///< the command that gives the table; of a file, the name of its schema
    std::string_view table;   ///< its name in the result; of a file, what a row is
    TableShape shape;
    /// Keys of the column catalogue, each with what it holds: "$" text, "#" a whole number, "?" yes or no, "~" a value
    /// with uncertainty, otherwise a number. Behind "|" stand columns that may be absent; "*" is any column of text
    /// that the data name.
    std::string_view columns;
};

/// Sorted by report.
[[nodiscard]] std::span<const TableKind> table_catalogue();

}  // namespace jointrom
