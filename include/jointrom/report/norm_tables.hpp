#pragma once

/// \file
/// What norms/ knows, as tables of the column catalogue.

#include <jointrom/norms/functional_arcs.hpp>
#include <jointrom/norms/measurement_error.hpp>
#include <jointrom/norms/norm_coverage.hpp>
#include <jointrom/norms/norm_difference.hpp>
#include <jointrom/norms/norm_table.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// A line for each row, with its normal range, for reading.
[[nodiscard]] ResultTable norm_overview_table(std::span<const NormRow* const> rows);

/// Everything that the rows hold. As CSV it can be read back as a norm table.
[[nodiscard]] ResultTable norm_table(const NormTable& table, std::span<const NormRow* const> rows);

/// Sentences that cite the sources of the rows, in the order of their first row.
[[nodiscard]] std::vector<std::string> citations(const NormTable& table, std::span<const NormRow* const> rows);

/// A row for each source.
[[nodiscard]] ResultTable norm_source_table(std::span<const NormSource> sources);

/// A row for each direction, sex and mode.
[[nodiscard]] ResultTable norm_coverage_table(std::span<const NormCoverage> coverage);

/// A row for each pair of sources.
[[nodiscard]] ResultTable norm_difference_table(std::span<const NormDifference> differences);

/// A row for each task; angles on the joint's axis.
[[nodiscard]] ResultTable functional_arc_table(std::span<const FunctionalArc* const> arcs);

/// A row for each published figure.
[[nodiscard]] ResultTable measurement_error_table(std::span<const MeasurementError* const> errors);

/// A row for each motion, with its signs and usual errors.
[[nodiscard]] ResultTable joint_table(std::span<const JointMotion* const> motions);

}  // namespace jointrom
