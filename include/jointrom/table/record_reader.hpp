#pragma once

/// \file
/// Tables of named text cells, such as manifests, norm tables, answer sheets and results, row by row. Unlike a logger's
/// export (table_reader.hpp), such a table must be well formed: one row of headings, every row as wide as it.

#include <jointrom/core/place.hpp>
#include <jointrom/table/byte_source.hpp>

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// Reads RFC 4180 text, also with semicolons or tabs (whichever is most frequent in the headings), in UTF-8, UTF-16 or
/// Windows-1252.
///
/// Memory: one block of text, whatever the size of the file. Blank lines are skipped. A cell in quotes may hold line
/// ends, up to 16 KiB.
class RecordReader {
  public:
    /// \throws Failure as file_source(); file-empty, not-text, line-too-long; unreadable_data "headings-missing" when
    ///   the first row holds numbers; "column-twice" when two columns have one name
    explicit RecordReader(const std::filesystem::path& path);
    /// \param source must outlive the reader \param name stands for the file in messages
    RecordReader(ByteSource& source, std::string name);
    RecordReader(RecordReader&&) noexcept;
    RecordReader& operator=(RecordReader&&) noexcept;
    ~RecordReader();

    /// Names in the first row, without blanks around them; a column may have none.
    [[nodiscard]] const std::vector<std::string>& columns() const noexcept;
    /// Index of the column with this name, in any case of letters.
    [[nodiscard]] std::optional<std::size_t> find_column(std::string_view name) const;
    /// The same. \throws Failure unreadable_data "no-such-column", naming the nearest one
    [[nodiscard]] std::size_t column(std::string_view name) const;

    /// Goes to the next row; false at the end. The cells of the row before are void.
    /// \throws Failure unreadable_data "row-width" for a row of another width than the headings (blank cells beyond
    /// them
    ///   count for nothing)
    bool next();

    /// The cell without blanks and quotes around it, in UTF-8; empty when there is nothing in it. An apostrophe before
    /// '=', '+', '-' or '@', by which tables are made harmless for spreadsheets, is left out, as in headings.
    [[nodiscard]] std::string_view text(std::size_t column) const;
    /// The cell as a number; NaN when it is empty. A decimal comma is understood where cells are not cut at commas.
    /// \throws Failure unreadable_data "not-a-number" with the place
    [[nodiscard]] double number(std::size_t column) const;

    /// The line in which the row begins, from 1.
    [[nodiscard]] std::size_t line() const noexcept;
    /// File, line and cell number, for messages.
    [[nodiscard]] Place place(std::size_t column) const;

  private:
    class State;
    std::unique_ptr<State> state_;
};

}  // namespace jointrom
