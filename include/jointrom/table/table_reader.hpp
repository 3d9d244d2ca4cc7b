#pragma once

/// \file
/// Reads the text tables that loggers and spreadsheets export: finds out how they are written, then reads their
/// numbers. Nothing here knows what a column means, except which one holds the time.

#include <jointrom/core/finding.hpp>
#include <jointrom/table/byte_source.hpp>
#include <jointrom/table/table_description.hpp>

#include <cstddef>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// What the caller knows better than the text shows. Everything unset is found out.
struct TableOptions {
    std::optional<char> delimiter = {};           ///< ',', ';', '\t', '|' or ' ' for runs of blanks
    std::optional<char> decimal_mark = {};        ///< '.' or ','
    std::optional<std::string> time_column = {};  ///< heading (with or without its unit), or number from 1
    std::vector<double> missing_values = {};      ///< numbers that stand for "no sample"
    std::optional<std::size_t> trial = {};        ///< which of several trials, from 1; no matter when there is one
    /// Which columns' values are wanted, by their headings and units; the rest is only checked. Unset: all.
    std::function<std::vector<bool>(const std::vector<std::string>&, const std::vector<std::string>&)> wanted = {};
};

struct TableColumn {
    std::size_t number = 0;   ///< in the file, from 1
    bool is_numeric = false;  ///< false: a column of text, which has no values
    bool is_time = false;     ///< cells were written as a time (1:02.5, 10:31:07 AM, ISO 8601); values are in seconds
    std::vector<double> values;  ///< one a row, NaN = blank or missing; empty for text and for columns not wanted
    std::size_t missing = 0;     ///< rows without a value
    std::string first_text;      ///< the first cell of a text column
};

/// A table as it stands in a file. `description.headings` and `.units` belong to `columns`, index by index.
///
/// Times. A numeric time column keeps the unit of its heading (`description.units`, `.time_format`). Cells written as
/// a time become seconds: "m:s" and "h:m:s" count as they stand; "h:m:s" from one hour on, a clock with AM/PM, a clock
/// behind a date and ISO 8601 count from the first stamp. A clock that falls by more than 12 h has passed midnight.
struct Table {
    TableDescription description;
    std::vector<TableColumn> columns;
    Findings findings;
    std::size_t first_data_line = 0;
    std::optional<std::size_t> time_column;  ///< index into columns

    /// The line of the file in which row `row` (from 0) stands.
    [[nodiscard]] std::size_t line_of_row(std::size_t row) const;

    /// Where the lines of rows are not consecutive: from row `first` on, row r stands in line r + `second`. Sorted.
    std::vector<std::pair<std::size_t, std::size_t>> line_offsets;
};

/// The table in a file.
///
/// Method: a first look at the head of the file tries every delimiter and decimal mark and keeps the reading that
/// makes most cells numbers in rows of one shape; the longest run of such rows is the table, the line of names above
/// it the header. Then all rows are read strictly by that reading: a cell that is neither a number nor blank nor a
/// word for "missing" in a column of numbers stops the reading.
/// Missing samples: blank cells and the words in cell.hpp become NaN and are counted.
///
/// \throws Failure file-missing, not-a-file, file-unreadable, file-empty, not-text, no-table, too-many-columns,
///         line-too-long, not-a-number, comma-twice, decimal-ambiguous, no-such-trial, no-such-column
/// \par Complexity O(bytes); memory for the columns that are kept and one block of text
[[nodiscard]] Table read_table(const std::filesystem::path& path, const TableOptions& options = {});

/// The table in any source of bytes; `name` stands for the file in messages.
[[nodiscard]] Table read_table(ByteSource& source, const std::string& name, const TableOptions& options = {});

/// The table in a text in memory.
[[nodiscard]] Table read_table_text(std::string_view text, const std::string& name, const TableOptions& options = {});

}  // namespace jointrom
