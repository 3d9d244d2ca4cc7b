#pragma once

/// \file
/// The recordings of a class, measured and written.

#include <jointrom/batch/earlier_results.hpp>
#include <jointrom/batch/plan.hpp>
#include <jointrom/batch/results_folder.hpp>
#include <jointrom/batch/trial_row.hpp>
#include <jointrom/report/result_table.hpp>

#include <atomic>
#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace jointrom {

struct BatchProgress {
    std::size_t reached = 0;  ///< recordings measured, failed or taken over
    std::size_t failed = 0;
    std::size_t total = 0;
};

struct BatchOptions {
    std::size_t threads = 1;
    bool ndjson = false;  ///< each table also as NDJSON
    /// Called after each recording, by one thread at a time.
    std::function<void(const BatchProgress&)> progress = nullptr;
};

struct BatchResult {
    std::vector<TrialRow> rows;  ///< in the order of the plan; shorter than it when the work was stopped
    std::size_t failed = 0;
    std::size_t taken_over = 0;                         ///< from the earlier results
    std::map<std::string, std::size_t> finding_counts;  ///< recordings with each finding, by code
    Findings findings;                                  ///< of the plan and of the class as a whole
};

/// Measures the recordings of a plan and writes the tables of docs/formats/results.md into the folder, which is not
/// committed.
///
/// The bytes written depend on the recordings and settings alone, not on the number of threads. A recording that fails
/// is a row of trials like the others. Memory does not grow with the size of the recordings' tables.
/// \param stop once true, no more recordings are begun
/// \throws Failure as ResultsFolder::append()
[[nodiscard]] BatchResult run_batch(const BatchPlan& plan, const EarlierResults& earlier, ResultsFolder& folder,
                                    const BatchOptions& options, const std::atomic<bool>& stop);

/// What a run came to, for people and for settings.json: counts, recordings that failed, findings by code.
/// \param source the manifest or folder \param source_sha256 may be empty
[[nodiscard]] Report batch_report(const BatchPlan& plan, const BatchResult& result, const InputFile& source);

}  // namespace jointrom
