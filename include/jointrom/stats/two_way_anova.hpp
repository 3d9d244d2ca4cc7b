#pragma once

/// \file
/// Scores of subjects (rows) under several conditions (columns), and how their variance splits up.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// One score a subject and column, row after row.
struct ScoreTable {
    std::size_t columns = 0;
    std::vector<double> values;

    [[nodiscard]] std::size_t rows() const { return columns == 0 ? 0 : values.size() / columns; }
    [[nodiscard]] double at(std::size_t row, std::size_t column) const { return values[row * columns + column]; }
    [[nodiscard]] std::vector<double> column(std::size_t column) const;
    void add_row(std::span<const double> row);
};

/// The rows in which no score is missing.
[[nodiscard]] ScoreTable complete_rows(const ScoreTable& table);

/// Mean squares of a two-way table with one score a cell.
struct TwoWayAnova {
    std::size_t rows = 0;     ///< n, subjects
    std::size_t columns = 0;  ///< k, raters, trials, ...
    double grand_mean = 0.0;
    double ms_rows = 0.0;     ///< between subjects, n - 1 degrees of freedom
    double ms_columns = 0.0;  ///< between columns, k - 1
    double ms_error = 0.0;    ///< residual, (n - 1)(k - 1)
    double ms_within = 0.0;   ///< within subjects (columns and residual together), n (k - 1)

    [[nodiscard]] double error_dof() const;
    [[nodiscard]] double within_dof() const;
};

/// Splits the variance of `scores`.
///
/// Method: sums of squared deviations from row, column and grand means. A residual below rounding (1e-13 of the scores'
/// own size) is 0.
/// Missing samples: refused; see complete_rows().
/// \throws Failure "too-few-subjects" for fewer than two rows, "too-few-repeats" for fewer than two columns,
///         "missing-cell" for a missing score
[[nodiscard]] TwoWayAnova two_way_anova(const ScoreTable& scores);

}  // namespace jointrom
