#pragma once

/// \file
/// Cells of the tables in data/norms and of users' tables in the same form, read strictly.

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/norms/norm_row.hpp>
#include <jointrom/table/record_reader.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// One row of a RecordReader whose columns are known by name. A column that the file lacks reads as empty.
class NormCells {
  public:
    /// \param known every column that may be there
    /// \throws Failure "norm-column-unknown" for another one, "norm-column-missing" for a `required` one
    NormCells(RecordReader& reader, std::span<const std::string_view> known,
              std::span<const std::string_view> required);

    [[nodiscard]] std::string text(std::string_view column) const;
    /// \throws Failure "norm-cell" when it is empty
    [[nodiscard]] std::string required_text(std::string_view column) const;
    /// NaN when empty. \throws Failure "norm-cell" for what is no number
    [[nodiscard]] double number(std::string_view column) const;
    /// One of `words`, as its index; nothing when empty. \throws Failure "norm-cell"
    [[nodiscard]] std::optional<std::size_t> word(std::string_view column,
                                                  std::span<const std::string_view> words) const;
    /// A whole number from 1; nothing when empty. \throws Failure "norm-cell"
    [[nodiscard]] std::optional<std::size_t> count(std::string_view column) const;
    /// What the cells "joint" and "motion" name. \throws Failure "norm-cell"
    [[nodiscard]] NamedPart part() const;
    /// `found`, `secondary` or `memory`; found when empty. \throws Failure "norm-cell"
    [[nodiscard]] Provenance provenance(std::string_view column) const;

    /// \throws Failure "norm-cell" that names the cell's place
    [[noreturn]] void refuse(std::string_view column, const std::string& expected) const;
    /// \throws Failure with this code at the cell's place
    [[noreturn]] void refuse(std::string_view column, std::string_view code, const std::string& text,
                             const std::string& advice) const;
    [[nodiscard]] std::size_t line() const noexcept { return reader_->line(); }

  private:
    [[nodiscard]] std::optional<std::size_t> index(std::string_view column) const;

    RecordReader* reader_;
    std::vector<std::pair<std::string, std::size_t>> columns_;
};

}  // namespace jointrom
