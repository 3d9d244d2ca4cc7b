#pragma once

/// \file
/// Rows of a table into its columns, strictly by a known dialect and layout.

#include <table/column_store.hpp>
#include <table/row_split.hpp>

#include <jointrom/core/place.hpp>
#include <jointrom/table/table_description.hpp>

#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace jointrom {

/// Rows whose number of cells is not that of the table.
struct RaggedRows {
    std::size_t short_rows = 0;
    std::size_t long_rows = 0;
    std::vector<std::size_t> lines;  ///< the first few
};

class RowReader {
  public:
    enum class LineKind { row, blank, text, wrong };

    struct Stop {
        LineKind kind = LineKind::row;  ///< of the line that stopped the reading; row when all was read
        std::string_view line;          ///< without its end
        std::size_t number = 0;
    };

    /// \param headings  one a column, for messages
    RowReader(Dialect dialect, bool decimal_known, ColumnStore& columns, const std::vector<std::string>& headings,
              std::string file);

    /// Reads rows from the front of `text` and removes them, up to its end or behind the first line that is no row.
    /// \param text  whole lines, each ending in '\n', with readable bytes behind
    /// \param line  number of the first line; moved along
    /// \throws Failure not-a-number, decimal-ambiguous
    Stop read(std::string_view& text, std::size_t& line);

    /// What a line is, without taking it. A row with text in the first column of numbers, but numbers in others, is
    /// wrong: the last line of sums, perhaps, or a damaged cell.
    [[nodiscard]] LineKind kind_of(std::string_view line);
    /// The number or time in the first column that is not text; NaN if there is none. Does not count as read.
    [[nodiscard]] double first_value(std::string_view line);
    /// Cells of a line up to the last that is not blank.
    [[nodiscard]] std::size_t width_of(std::string_view line);

    /// From now on the last cell of the row that ends the input is not trusted if the row is short.
    void expect_cut_line(std::size_t line) { cut_line_ = line; }
    [[nodiscard]] bool has_cut_line() const noexcept { return found_cut_line_; }

    /// \throws Failure not-a-number for the first cell that is not text by its column
    [[noreturn]] void refuse_first_cell(std::string_view line, std::size_t number);

    /// Index of the first column that is not text.
    [[nodiscard]] std::size_t first_column() const noexcept { return first_column_; }
    [[nodiscard]] const RaggedRows& ragged() const noexcept { return ragged_; }
    [[nodiscard]] bool decimal_known() const noexcept { return decimal_known_; }
    [[nodiscard]] const Dialect& dialect() const noexcept { return dialect_; }
    /// Row and line numbers where rows are not on consecutive lines; see Table::line_offsets.
    [[nodiscard]] const std::vector<std::pair<std::size_t, std::size_t>>& line_offsets() const noexcept {
        return line_offsets_;
    }

  private:
    void read_difficult_row(std::size_t number);
    void split(std::string_view line);
    [[nodiscard]] LineKind kind_of_cells() const;
    double read_cell(std::size_t c, std::string_view cell, std::size_t line);
    double read_number(std::size_t c, std::string_view cell, std::size_t line);
    double read_unexpected(std::size_t c, std::string_view cell, std::size_t line);
    [[nodiscard]] bool looks_like_value(std::string_view cell) const;
    [[noreturn]] void refuse(std::size_t c, std::string_view cell, std::size_t line) const;
    void note_ragged(std::size_t line);

    Dialect dialect_;
    bool decimal_known_;
    ColumnStore& columns_;
    const std::vector<std::string>& headings_;
    std::string file_;
    std::size_t first_column_ = 0;
    RowCells cells_;             ///< of the line that was split last, up to the last that is not blank
    std::size_t delimited_ = 0;  ///< number of its cells, those that are blank at the end included
    RaggedRows ragged_;
    std::size_t cut_line_ = 0;
    bool found_cut_line_ = false;
    std::vector<std::pair<std::size_t, std::size_t>> line_offsets_;
};

}  // namespace jointrom
