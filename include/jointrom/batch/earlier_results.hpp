#pragma once

/// \file
/// The tables of an earlier run, from which recordings that have not changed need not be measured again.

#include <jointrom/batch/outcome_tables.hpp>

#include <filesystem>
#include <optional>

namespace jointrom {

class EarlierResults {
  public:
    EarlierResults() = default;
    /// Reads the tables in a folder of results. Those of another version of the library count for nothing.
    /// \throws Failure as OutcomeTables
    explicit EarlierResults(const std::filesystem::path& folder) : tables_(folder) {}

    /// The outcome of a task in the earlier run, with what the present plan says of its subject; nothing when it
    /// failed, its settings were others, or its file held other bytes.
    ///
    /// \par Complexity the file is read once, to compute its checksum
    [[nodiscard]] std::optional<TrialOutcome> find(const TrialTask& task) const;

  private:
    OutcomeTables tables_;
};

}  // namespace jointrom
