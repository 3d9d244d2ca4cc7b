#pragma once

/// \file
/// From columns that have been read to the table that is handed out, and what there is to say about them.

#include <table/column_store.hpp>
#include <table/row_reader.hpp>
#include <table/table_layout.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/table/table_reader.hpp>

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// Line of a row, by the offsets described at Table::line_offsets.
[[nodiscard]] std::size_t line_of_row(std::span<const std::pair<std::size_t, std::size_t>> offsets, std::size_t row);

/// The trials side by side in a block; rows at the end in which a trial has no value are not counted. Lines are unset.
[[nodiscard]] std::vector<TableBlock> trials_of(const TableLayout& layout,
                                                const std::vector<ColumnStore::Column>& columns, std::size_t rows);

[[nodiscard]] Failure no_rows(const std::string& file);

/// Columns whose values are wanted, one a column of the layout.
[[nodiscard]] std::vector<bool> wanted_columns(const TableOptions& options, const TableLayout& layout);

/// Moves the columns of the chosen trial into the table: names, units, values, time column.
/// \throws Failure no-such-column when the stated time column is not there
void take_columns(Table& table, const TableLayout& layout, std::vector<ColumnStore::Column> columns,
                  const TableOptions& options, const std::string& file);

/// Adds a finding with the number of lines, if there are any.
void note_lines(Findings& findings, std::string_view code, const std::string& where, std::size_t count, Place place);
void note_blocks(Findings& findings, const std::vector<TableBlock>& blocks, std::size_t used, const std::string& file);
void note_ragged(Findings& findings, const RaggedRows& ragged, const std::string& file);

/// For a file in which every mark could be the decimal mark or group thousands.
/// \throws Failure decimal-ambiguous when a column has numbers with and without the mark, as grouped numbers would
void check_decimal_mark(Findings& findings, const std::vector<ColumnStore::Column>& columns,
                        const std::vector<std::string>& headings, const Dialect& dialect, const std::string& file);

}  // namespace jointrom
