#pragma once

/// \file
/// The first rows of a text, read by one delimiter and decimal mark, and the longest run among them that looks like
/// the rows of one table.

#include <table/cell.hpp>
#include <table/row_split.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace jointrom {

/// One row (several lines if quotes hold a line end) and the kinds of its cells.
struct HeadRow {
    std::string_view text;
    std::size_t line = 0;  ///< from 1
    std::size_t first_kind = 0;
    std::size_t width = 0;
    std::size_t numbers = 0;  ///< numbers and times
    std::size_t texts = 0;
    bool has_mark = false;     ///< some number has a decimal or grouping mark
    bool proves_mark = false;  ///< some number can be read with this decimal mark only

    [[nodiscard]] bool is_blank() const noexcept { return numbers == 0 && texts == 0; }
};

class HeadRows {
  public:
    /// At most `most` rows from the front of `text`, whose first line has number `first_line`.
    HeadRows(std::string_view text, std::size_t first_line, std::size_t most, char delimiter, char decimal_mark);

    [[nodiscard]] const std::vector<HeadRow>& rows() const noexcept { return rows_; }
    [[nodiscard]] std::span<const CellKind> kinds(const HeadRow& row) const {
        return std::span(kinds_).subspan(row.first_kind, row.width);
    }
    [[nodiscard]] char grouping_mark() const noexcept { return grouping_mark_; }
    [[nodiscard]] bool has_quotes() const noexcept { return has_quotes_; }
    /// Whether the rows reach the end of the text.
    [[nodiscard]] bool complete() const noexcept { return complete_; }

  private:
    void note_marks(const std::optional<CellNumber>& number, char decimal_mark, HeadRow& row);

    std::vector<HeadRow> rows_;
    std::vector<CellKind> kinds_;
    char grouping_mark_ = 0;
    bool has_quotes_ = false;
    bool complete_ = false;
};

/// Rows first <= i < last with the same columns of numbers and of text. Blank rows may stand between.
struct Run {
    std::size_t first = 0;
    std::size_t last = 0;
    std::size_t width = 0;  ///< of most rows
    std::size_t rows = 0;   ///< that are not blank
    std::size_t numbers = 0;
    std::size_t texts = 0;
    double score = 0.0;
    std::size_t widest = 0;  ///< largest width that at least a tenth of the rows have, or the usual one
    bool has_mark = false;
    bool proves_mark = false;
    bool is_ragged = false;
};

/// All runs, in reading order. Score: numbers count 1, texts -3 (a row counts no less than a twentieth of its numbers),
/// and half a point is lost per cell in the share of rows with another width.
[[nodiscard]] std::vector<Run> find_runs(const HeadRows& head);

/// The run with the highest score, the first of equals; nothing when no row has a number.
[[nodiscard]] std::optional<Run> best_run(const HeadRows& head);

}  // namespace jointrom
