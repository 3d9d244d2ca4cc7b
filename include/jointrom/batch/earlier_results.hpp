#pragma once

/// \file
/// The tables of an earlier run, from which recordings that have not changed need not be measured again.

#include <jointrom/batch/trial_outcome.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>

namespace jointrom {

class EarlierResults {
  public:
    EarlierResults() = default;
    /// Reads the tables in a folder of results. Those of another version of the library count for nothing.
    /// \throws Failure what RecordReader throws, "no-such-column"
    explicit EarlierResults(const std::filesystem::path& folder);

    /// The outcome of a task in the earlier run, with what the present plan says of its subject; nothing when it
    /// failed, its settings were others, or its file held other bytes.
    ///
    /// \par Complexity the file is read once, to compute its checksum
    [[nodiscard]] std::optional<TrialOutcome> find(const TrialTask& task) const;

    [[nodiscard]] bool empty() const noexcept { return trials_.empty(); }

  private:
    /// Rows of one recording, as text: cells end in a unit separator, rows in a record separator.
    struct Rows {
        std::string trial, repetitions, phases, activity, findings;
    };
    void read(const std::filesystem::path& file, std::span<const RowColumn> columns, std::string Rows::*rows);

    std::unordered_map<std::string, Rows> trials_;  ///< by id
};

}  // namespace jointrom
