#pragma once

/// \file
/// What a command found, before it is printed in any format.

#include <jointrom/core/finding.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/report/column_catalogue.hpp>

#include <cstdint>
#include <initializer_list>
#include <memory>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace jointrom {

/// A value with its standard uncertainty and its expanded uncertainty for 95 % coverage.
struct Measured {
    double value;
    double u;
    double u95;
};

/// The value with what `budget` says of it.
[[nodiscard]] Measured measured(double value, const Budget& budget);

/// A number with decimals of its own, where a column holds values of any unit and size.
struct FixedNumber {
    double value;
    int decimals;
};

/// Nothing, a number, a whole number, a yes or no, a text, or a value with its uncertainty. A missing number (NaN) is
/// printed as nothing.
using Cell = std::variant<std::monostate, double, std::int64_t, bool, std::string, Measured, FixedNumber>;

/// A cell for a count, which is whole and never negative.
[[nodiscard]] Cell count_cell(std::size_t count);

/// Rows of the same kind: one CSV file, or one array in JSON.
class ResultTable {
  public:
    /// \param columns keys of the column catalogue, in order
    ResultTable(std::string name, std::initializer_list<std::string_view> columns);
    ResultTable(std::string name, const std::vector<std::string_view>& columns);
    /// \param named_by_data headings of columns of text that come first and that the input named, such as those that it
    ///   is grouped by
    ResultTable(std::string name, std::span<const std::string> named_by_data,
                const std::vector<std::string_view>& columns);

    /// \pre one cell a column
    void add_row(std::vector<Cell> cells);

    [[nodiscard]] const std::string& name() const noexcept { return name_; }
    [[nodiscard]] const std::vector<const ColumnKind*>& columns() const noexcept { return columns_; }
    [[nodiscard]] const std::vector<std::vector<Cell>>& rows() const noexcept { return rows_; }

    template <typename Type>
    [[nodiscard]] bool column_holds(std::size_t column) const {
        for (const std::vector<Cell>& row : rows_) {
            if (std::holds_alternative<Type>(row[column])) {
                return true;
            }
        }
        return false;
    }

  private:
    struct NamedColumn;

    std::string name_;
    std::vector<std::shared_ptr<const NamedColumn>> named_by_data_;  ///< what columns_ points to beside the catalogue
    std::vector<const ColumnKind*> columns_;
    std::vector<std::vector<Cell>> rows_;
};

/// An input of a result.
struct InputFile {
    std::string name;
    std::string sha256;  ///< empty when it was not computed
    std::size_t rows = 0;
};

/// How the uncertainty of one result is made up.
struct NamedBudget {
    std::string name;  ///< of the result
    Budget budget;
    std::string unit = "deg";  ///< of the result
};

/// One result in full.
struct Report {
    std::string schema;                ///< name of the JSON Schema, e.g. "jointrom-range"
    std::string title;                 ///< one line that says what was measured
    std::vector<ResultTable> tables;   ///< the first is the one that CSV holds
    std::vector<std::string> remarks;  ///< sentences for a human reader below the tables
    std::vector<NamedBudget> budgets;
    std::vector<InputFile> inputs;
    std::vector<std::pair<std::string, std::string>> settings;  ///< all in force, name and text; empty = automatic
    Findings findings;
};

}  // namespace jointrom
