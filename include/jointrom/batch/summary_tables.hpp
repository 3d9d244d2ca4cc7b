#pragma once

/// \file
/// The statistics of a class as tables of the column catalogue.

#include <jointrom/batch/class_summary.hpp>
#include <jointrom/batch/level_comparison.hpp>
#include <jointrom/batch/norm_comparison.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>
#include <string>

namespace jointrom {

/// groups: a row for each group and quantity.
[[nodiscard]] ResultTable group_table(const ClassSummary& summary, const LongTable& table,
                                      std::span<const std::string> by);

/// outliers: a row for each value that stands out.
[[nodiscard]] ResultTable outlier_table(const ClassSummary& summary, const LongTable& table,
                                        std::span<const std::string> by);

/// A row for each comparison. \param name "sides" or "change"
[[nodiscard]] ResultTable comparison_table(const std::string& name, const Comparisons& comparisons,
                                           const LongTable& table, const ComparisonOptions& options);

/// norms: a row for each group, direction and source.
[[nodiscard]] ResultTable norm_comparison_table(const NormComparisons& comparisons);

}  // namespace jointrom
