#pragma once

/// \file
/// The statistics of a class, written beside its tables.

#include <jointrom/batch/results_folder.hpp>
#include <jointrom/batch/trial_row.hpp>
#include <jointrom/core/finding.hpp>

#include <span>

namespace jointrom {

/// Writes what `summary` says of a table of trials: summary.csv (a row for each group and quantity),
/// summary_outliers.csv, and summary_sides.csv where participants have both sides. Nothing when no recording was
/// measured.
/// \return what the statistics have to say
[[nodiscard]] Findings write_class_summary(std::span<const TrialRow> rows, ResultsFolder& folder);

}  // namespace jointrom
