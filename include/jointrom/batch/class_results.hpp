#pragma once

/// \file
/// What `batch` wrote about a class, read back, so that nothing is measured twice.

#include <jointrom/batch/trial_outcome.hpp>
#include <jointrom/report/page_parts.hpp>
#include <jointrom/report/result_table.hpp>

#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace jointrom {

struct ClassResults {
    std::vector<TrialOutcome> outcomes;  ///< in the order of trials.csv
    std::vector<ToldFinding> findings;   ///< about the class as a whole
    std::vector<InputFile> files;        ///< the tables; their names without folders
    std::vector<std::pair<std::string, std::string>> settings;
    std::string version;  ///< of the program that measured

    [[nodiscard]] std::vector<TrialRow> rows() const;
};

/// \throws Failure missing_file "results-missing" when the folder does not hold the results of a whole run;
///   unreadable_data "results-invalid" for a settings.json of another kind; as OutcomeTables
[[nodiscard]] ClassResults read_class_results(const std::filesystem::path& folder);

}  // namespace jointrom
