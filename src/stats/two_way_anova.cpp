#include <jointrom/stats/two_way_anova.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <string>

namespace jointrom {
namespace {

void require_enough(const ScoreTable& scores) {
    if (scores.rows() < 2) {
        throw Failure(FailureKind::unreadable_data, "too-few-subjects",
                      "repeated measurements of " + std::to_string(scores.rows()) +
                          " subject(s); at least two with all their measurements are needed",
                      "Without several subjects nothing tells how far subjects differ.");
    }
    if (scores.columns < 2) {
        throw Failure(FailureKind::unreadable_data, "too-few-repeats",
                      "one measurement a subject; at least two are needed",
                      "Agreement needs every subject measured twice or more.");
    }
    if (std::ranges::any_of(scores.values, [](double value) { return std::isnan(value); })) {
        throw Failure(FailureKind::unreadable_data, "missing-cell", "a score is missing",
                      "Leave out subjects that lack a measurement.");
    }
}

/// Squares as small as what rounding leaves of nothing are nothing.
double without_rounding(double squares, double values, double size) {
    const double rounding = 1e-13 * size;
    return squares <= values * rounding * rounding ? 0.0 : squares;
}

std::vector<double> means_of(const ScoreTable& scores, bool of_rows) {
    const std::size_t count = of_rows ? scores.rows() : scores.columns;
    std::vector<double> means;
    means.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        means.push_back(of_rows ? describe(std::span(scores.values).subspan(i * scores.columns, scores.columns)).mean
                                : describe(scores.column(i)).mean);
    }
    return means;
}

}  // namespace

std::vector<double> ScoreTable::column(std::size_t column) const {
    std::vector<double> result;
    result.reserve(rows());
    for (std::size_t row = 0; row < rows(); ++row) {
        result.push_back(at(row, column));
    }
    return result;
}

void ScoreTable::add_row(std::span<const double> row) {
    assert(row.size() == columns);
    values.insert(values.end(), row.begin(), row.end());
}

ScoreTable complete_rows(const ScoreTable& table) {
    ScoreTable result{.columns = table.columns, .values = {}};
    result.values.reserve(table.values.size());
    for (std::size_t row = 0; row < table.rows(); ++row) {
        const auto scores = std::span(table.values).subspan(row * table.columns, table.columns);
        if (std::ranges::none_of(scores, [](double value) { return std::isnan(value); })) {
            result.add_row(scores);
        }
    }
    return result;
}

double TwoWayAnova::error_dof() const {
    return static_cast<double>((rows - 1) * (columns - 1));
}

double TwoWayAnova::within_dof() const {
    return static_cast<double>(rows * (columns - 1));
}

TwoWayAnova two_way_anova(const ScoreTable& scores) {
    require_enough(scores);
    const std::vector<double> row_means = means_of(scores, true);
    const std::vector<double> column_means = means_of(scores, false);
    const Description all = describe(scores.values);
    double row_squares = 0.0;
    double column_squares = 0.0;
    double error_squares = 0.0;
    for (const double mean : column_means) {
        column_squares += (mean - all.mean) * (mean - all.mean);
    }
    for (std::size_t row = 0; row < scores.rows(); ++row) {
        const double effect = row_means[row] - all.mean;
        row_squares += effect * effect;
        for (std::size_t column = 0; column < scores.columns; ++column) {
            const double residual = scores.at(row, column) - effect - column_means[column];
            error_squares += residual * residual;
        }
    }
    const auto n = static_cast<double>(scores.rows());
    const auto k = static_cast<double>(scores.columns);
    const double size = std::max(std::abs(all.min), std::abs(all.max));
    row_squares = without_rounding(k * row_squares, n * k, size);
    column_squares = without_rounding(n * column_squares, n * k, size);
    error_squares = without_rounding(error_squares, n * k, size);
    TwoWayAnova anova{.rows = scores.rows(), .columns = scores.columns, .grand_mean = all.mean};
    anova.ms_rows = row_squares / (n - 1.0);
    anova.ms_columns = column_squares / (k - 1.0);
    anova.ms_error = error_squares / anova.error_dof();
    anova.ms_within = (column_squares + error_squares) / anova.within_dof();
    return anova;
}

}  // namespace jointrom
