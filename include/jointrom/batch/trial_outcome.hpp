#pragma once

/// \file
/// One recording of a class through the whole chain.

#include <jointrom/batch/plan.hpp>
#include <jointrom/batch/trial_row.hpp>

#include <vector>

namespace jointrom {

struct TrialOutcome {
    TrialRow row;
    std::vector<std::vector<Cell>> repetitions, phases, activity, findings;
};

[[nodiscard]] std::span<const RowColumn> repetition_columns();
[[nodiscard]] std::span<const RowColumn> phase_columns();
[[nodiscard]] std::span<const RowColumn> activity_columns();
[[nodiscard]] std::span<const RowColumn> finding_columns();

/// The recording of a task, measured as the plan has it. Never fails: what goes wrong is told in the row.
///
/// Method: a file whose decimal mark or delimiter does not show is read as most of the class is written
/// (finding dialect-of-class); one that is plainly written otherwise is read as it is (finding dialect-differs). Where
/// it has channels of muscle activity, these are measured too; what is wrong with them is a finding.
[[nodiscard]] TrialOutcome measure_trial(const BatchPlan& plan, const TrialTask& task);

}  // namespace jointrom
