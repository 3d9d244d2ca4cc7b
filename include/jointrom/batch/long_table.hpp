#pragma once

/// \file
/// Result tables in long form - a row for each measurement, columns that say whose it is - held by column: texts as
/// codes, numbers as they are. Shards of one result are read as one table.

#include <cstddef>
#include <cstdint>
#include <functional>
#include <iosfwd>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// A column of texts that repeat. Codes are in the natural order of the texts, so they do not depend on that of rows.
struct TextColumn {
    std::string name;
    std::vector<std::uint32_t> codes;  ///< one a row, into texts
    std::vector<std::string> texts;    ///< the different ones; an empty cell is an empty text

    [[nodiscard]] const std::string& text(std::size_t row) const { return texts[codes[row]]; }
    /// Texts that are not empty.
    [[nodiscard]] std::size_t named() const;
};

struct NumberColumn {
    std::string name;
    std::vector<double> values;  ///< one a row; missing for an empty cell
};

/// Texts that do not repeat, one after another.
class TextList {
  public:
    void add(std::string_view text);
    [[nodiscard]] std::size_t size() const noexcept { return ends_.size(); }
    [[nodiscard]] std::string_view operator[](std::size_t row) const;

  private:
    std::string letters_;
    std::vector<std::uint64_t> ends_;
};

/// Which columns are wanted, by name.
struct LongTableRequest {
    std::vector<std::string> texts;
    std::vector<std::string> numbers;
};

struct LongTable {
    std::vector<std::string> headings;                       ///< all columns of the first file
    std::vector<TextColumn> texts;                           ///< as requested
    std::vector<NumberColumn> numbers;                       ///< as requested
    std::size_t rows = 0;                                    ///< that can be used
    std::size_t failed = 0;                                  ///< rows whose status is "failed"; left out
    std::size_t repeated = 0;                                ///< rows that stood there already; left out
    std::vector<std::pair<std::string, std::size_t>> files;  ///< names and rows

    /// \return nothing when the column was not requested
    [[nodiscard]] const TextColumn* find_text(std::string_view name) const;
    /// What the column `id` says of the row; empty when there is no such column.
    [[nodiscard]] std::string_view id(std::size_t row) const;

    TextList ids;                      ///< by row as read
    std::vector<std::uint32_t> id_of;  ///< by row, into ids, when rows were left out
};

/// Decides which columns to read, knowing the headings of a file.
using ColumnChooser = std::function<LongTableRequest(const std::vector<std::string>& headings)>;

/// Reads tables as one. "-" is `standard_input`.
///
/// Method: one pass, row by row. With columns `id` and `status` (trials.csv) an id stands for one recording: a row that
/// stands there again, equal in all columns that are read, counts once.
/// \throws Failure as RecordReader; unreadable_data "columns-differ" when the files do not have the same columns of
///         those wanted, "id-conflict" when one id has different rows, "id-missing",
///         "number-too-large" beyond 1e15, "no-rows" when no file holds any
[[nodiscard]] LongTable read_long_table(std::span<const std::string> files, std::istream& standard_input,
                                        const ColumnChooser& choose);

}  // namespace jointrom
