#pragma once

/// \file
/// The columns while they are filled, row by row.

#include <table/cell.hpp>
#include <table/number_scan.hpp>
#include <table/time_cell.hpp>

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace jointrom {

/// Space is added a few thousand rows at a time, inside one allocation of the expected size: memory that is never used
/// is never touched, and the rows just written are still in the cache when missing values are looked for.
class ColumnStore {
  public:
    struct Column {
        CellKind kind = CellKind::number;
        bool keep = true;
        bool undetermined = false;  ///< blank in all rows that the kind was found from
        std::vector<double> values;
        std::size_t missing = 0;
        std::string first_text;
        TimeLine times;
        std::size_t ambiguous = 0;  ///< numbers whose mark may be the decimal mark or not
    };

    /// What the loop over plain rows needs of a column.
    struct Slot {
        double* values;  ///< of the rows since the last step
        CellKind kind;
        NumberShape shape{};  ///< of the last number
    };

    /// \param expected_rows  0 when unknown
    ColumnStore(std::vector<Column> columns, std::vector<double> missing_values, std::size_t expected_rows);

    [[nodiscard]] std::size_t size() const noexcept { return columns_.size(); }
    [[nodiscard]] Column& operator[](std::size_t c) { return columns_[c]; }
    [[nodiscard]] const Column& operator[](std::size_t c) const { return columns_[c]; }
    [[nodiscard]] std::size_t rows() const noexcept { return rows_; }

    [[nodiscard]] Slot* slots() noexcept { return slots_.data(); }
    /// Rows since the last step, and rows that can be added before the next.
    [[nodiscard]] std::size_t rows_in_step() const noexcept { return rows_ - begin_; }
    [[nodiscard]] std::size_t room() const noexcept { return room_ - rows_; }

    /// Where the cell of the row that is being filled goes.
    [[nodiscard]] double& cell(std::size_t c) noexcept { return slots_[c].values[rows_ - begin_]; }
    /// The value of a column in the last whole row. \pre rows() > 0 and the column is kept
    [[nodiscard]] double last(std::size_t c) const { return columns_[c].values[rows_ - 1]; }
    [[nodiscard]] bool has_values(std::size_t c) const;
    void change_kind(std::size_t c, CellKind kind);

    /// `count` more rows are complete. \pre count <= room()
    void add_rows(std::size_t count) {
        rows_ += count;
        if (rows_ == room_) {
            make_room();
        }
    }

    /// Takes the columns out, at their final size.
    [[nodiscard]] std::vector<Column> finish();

  private:
    void make_room();
    void settle();

    std::vector<Column> columns_;
    std::vector<double> missing_values_;
    std::vector<Slot> slots_;
    std::vector<double> scratch_;  ///< where values of columns that are not kept go
    std::size_t rows_ = 0;
    std::size_t begin_ = 0;  ///< rows before have been looked through for missing values
    std::size_t room_ = 0;
    std::size_t step_ = 0;
};

}  // namespace jointrom
