#pragma once

/// \file
/// The tables of a folder of results, read back recording by recording.

#include <jointrom/batch/trial_outcome.hpp>

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace jointrom {

class OutcomeTables {
  public:
    OutcomeTables() = default;
    /// \throws Failure what RecordReader throws, "no-such-column"
    explicit OutcomeTables(const std::filesystem::path& folder);

    /// Of the recordings, in the order of trials.csv.
    [[nodiscard]] const std::vector<std::string>& ids() const noexcept { return ids_; }
    [[nodiscard]] bool holds(const std::string& id) const { return rows_.contains(id); }

    /// The version of the library that made the row. \pre holds(id)
    [[nodiscard]] std::string version(const std::string& id) const;
    /// \pre holds(id)
    [[nodiscard]] TrialRow row(const std::string& id) const;
    [[nodiscard]] TrialOutcome outcome(const std::string& id) const;

  private:
    /// Rows of one recording, as text: cells end in a unit separator, rows in a record separator.
    struct Rows {
        std::string trial, repetitions, phases, activity, findings;
    };
    void read(const std::filesystem::path& file, std::span<const RowColumn> columns, std::string Rows::*rows);

    std::vector<std::string> ids_;
    std::unordered_map<std::string, Rows> rows_;  ///< by id
};

}  // namespace jointrom
