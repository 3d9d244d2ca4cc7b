#include <jointrom/batch/summary_tables.hpp>

#include "batch/value_cells.hpp"

#include <map>

namespace jointrom {
namespace {

/// Decimals for the values of each quantity.
std::map<std::string, int> decimals_of(const LongTable& table) {
    std::map<std::string, int> decimals;
    for (const NumberColumn& column : table.numbers) {
        decimals[column.name] = decimals_for(column.values);
    }
    return decimals;
}

}  // namespace

ResultTable group_table(const ClassSummary& summary, const LongTable& table, std::span<const std::string> by) {
    ResultTable result("groups", by,
                       {"quantity", "count", "missing", "participants", "mean", "sd", "ci_low", "ci_high", "middle",
                        "lower_quartile", "upper_quartile", "minimum", "maximum", "outliers"});
    const auto decimals = decimals_of(table);
    for (const GroupSummary& group : summary.groups) {
        const auto cell = [&](double value) { return FixedNumber{value, decimals.at(group.quantity)}; };
        std::vector<Cell> row = group_cells(group.group);
        append_cells(row, {group.quantity, count_cell(group.values.count), count_cell(group.values.missing),
                           group.participants == 0 ? Cell() : count_cell(group.participants), cell(group.values.mean),
                           cell(group.values.sd), cell(group.mean_ci.low), cell(group.mean_ci.high), cell(group.median),
                           cell(group.lower_quartile), cell(group.upper_quartile), cell(group.values.min),
                           cell(group.values.max), count_cell(group.outliers)});
        result.add_row(std::move(row));
    }
    return result;
}

ResultTable outlier_table(const ClassSummary& summary, const LongTable& table, std::span<const std::string> by) {
    ResultTable result("outliers", by, {"quantity", "participant", "id", "value", "middle", "modified_z"});
    const auto decimals = decimals_of(table);
    const auto text_or_nothing = [](const std::string& text) { return text.empty() ? Cell() : Cell(text); };
    for (const OutlyingValue& outlier : summary.outliers) {
        const auto cell = [&](double value) { return FixedNumber{value, decimals.at(outlier.quantity)}; };
        std::vector<Cell> row = group_cells(outlier.group);
        append_cells(row, {outlier.quantity, text_or_nothing(outlier.participant), text_or_nothing(outlier.id),
                           cell(outlier.value), cell(outlier.median), outlier.modified_z});
        result.add_row(std::move(row));
    }
    return result;
}

ResultTable comparison_table(const std::string& name, const Comparisons& comparisons, const LongTable& table,
                             const ComparisonOptions& options) {
    std::vector<std::string> by = options.by;
    std::erase(by, options.column);
    ResultTable result(name, by,
                       {"quantity", "first", "second", "design", "first_count", "second_count", "first_mean",
                        "second_mean", "difference", "ci_low", "ci_high", "t", "degrees_of_freedom", "p", "hedges_g",
                        "hedges_g_low", "hedges_g_high", "detectable_change", "changed"});
    const auto decimals = decimals_of(table);
    for (const Comparison& comparison : comparisons.rows) {
        const auto cell = [&](double value) { return FixedNumber{value, decimals.at(comparison.quantity)}; };
        const bool is_paired = comparison.design == Design::paired;
        std::vector<Cell> row = group_cells(comparison.group);
        append_cells(row,
                     {comparison.quantity, options.first, options.second,
                      std::string(is_paired ? "paired" : "independent"), count_cell(comparison.first.count),
                      count_cell(comparison.second.count), cell(comparison.first.mean), cell(comparison.second.mean),
                      cell(comparison.test.difference), cell(comparison.test.ci.low), cell(comparison.test.ci.high),
                      comparison.test.t, comparison.test.dof, probability_cell(comparison.test.p), comparison.effect.g,
                      comparison.effect.g_ci.low, comparison.effect.g_ci.high, cell(comparison.detectable_change),
                      std::isnan(comparison.detectable_change) ? Cell() : count_cell(comparison.changed)});
        result.add_row(std::move(row));
    }
    return result;
}

ResultTable norm_comparison_table(const NormComparisons& comparisons) {
    ResultTable result("norms", comparisons.by,
                       {"direction", "quantity", "source", "participants", "below", "inside", "above", "undecided",
                        "mean_deg", "norm_mean_deg", "mean_z"});
    for (const NormComparison& comparison : comparisons.rows) {
        std::vector<Cell> row = group_cells(comparison.group);
        append_cells(row,
                     {comparison.direction, comparison.quantity, comparison.source, count_cell(comparison.participants),
                      count_cell(comparison.below), count_cell(comparison.inside), count_cell(comparison.above),
                      count_cell(comparison.undecided), comparison.mean, comparison.norm_mean, comparison.mean_z});
        result.add_row(std::move(row));
    }
    return result;
}

}  // namespace jointrom
