#pragma once

/// \file
/// The column that a user means.

#include <jointrom/table/table_reader.hpp>

#include <cstddef>
#include <string_view>

namespace jointrom {

/// The column of the table that `name` stands for, as an index into table.columns.
///
/// Method: the first of these that fits exactly one column: the heading, with or without its unit, in any case; the
/// column's number in the file, counted from 1; the beginning of a heading; a part of a heading. Of headings that
/// repeat, NAME is the first and NAME#2 the second.
/// \param option the option that carries the name, for the message, e.g. "--angle"
/// \throws Failure usage "column-ambiguous" when several columns fit equally well, "column-missing" when none does
[[nodiscard]] std::size_t find_column(const Table& table, std::string_view name, std::string_view option);

/// The name of a column for people: its heading without the unit.
[[nodiscard]] std::string column_name(const Table& table, std::size_t index);
[[nodiscard]] std::string column_name(const std::string& heading);

}  // namespace jointrom
