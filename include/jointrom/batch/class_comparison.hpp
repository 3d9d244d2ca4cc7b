#pragma once

/// \file
/// The people of a class: left against right, and, when it is asked for, each against published values.

#include <jointrom/batch/trial_row.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/norms/measured_person.hpp>
#include <jointrom/report/result_table.hpp>

#include <optional>
#include <span>
#include <vector>

namespace jointrom {

struct ClassComparison {
    std::vector<JudgedPerson> judged;  ///< by recording, whose id is the person's label; empty unless asked for
    std::vector<SidePair> sides;
    Findings findings;
};

struct ClassComparisonOptions {
    PersonDefaults person = {};        ///< what the table does not say
    const NormTable* norms = nullptr;  ///< published values; nothing is compared without
    JudgingOptions judging = {};
};

/// Rows of which the joint is not known, or whose figures cannot be (results-row-skipped), take no part.
[[nodiscard]] ClassComparison compare_class(std::span<const TrialRow> rows, const ClassComparisonOptions& options);

/// A row for each joint and direction: how many extents lie below, within and above, or cannot be told.
[[nodiscard]] ResultTable verdict_count_table(std::span<const JudgedPerson> judged);

}  // namespace jointrom
