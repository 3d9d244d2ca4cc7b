#pragma once

/// \file
/// What `summary` says of a table of trials, as result tables.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/batch/trial_row.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/report/result_table.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

struct ClassStatistics {
    std::optional<ResultTable> groups;    ///< a row for each group and quantity; none when nothing was measured
    std::optional<ResultTable> outliers;  ///< a row for each value that stands out
    std::optional<ResultTable> sides;     ///< left and right compared, where participants have both
    Findings findings;
};

/// Groups are what joint, motion, side and condition tell apart; a participant counts once.
[[nodiscard]] ClassStatistics class_statistics(std::span<const TrialRow> rows);

/// The recordings that were measured as a table that can be summarised.
struct TrialTable {
    LongTable table;
    std::vector<std::string> by;  ///< columns that tell groups apart, of joint, motion, side and condition
    std::string participant;      ///< "participant", or empty where nobody is named
};

/// \param numbers columns; empty: the extents
/// \pre a row was measured
[[nodiscard]] TrialTable trial_table(std::span<const TrialRow> rows, std::vector<std::string> numbers = {});

/// Rows of the recordings that were measured, as they stand in trials.csv, with the header row.
[[nodiscard]] std::string measured_trials_csv(std::span<const TrialRow> rows);

}  // namespace jointrom
