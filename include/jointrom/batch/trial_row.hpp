#pragma once

/// \file
/// The table of trials, the one that class statistics, agreement, checks and grading read: a row for each recording,
/// also for one that could not be measured.

#include <jointrom/report/table_rows.hpp>

#include <cstddef>
#include <limits>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Who and what was recorded. Unknown texts are empty, unknown numbers missing (NaN).
struct TrialSubject {
    std::string id;           ///< the same in every run and every shard
    std::string file;         ///< relative to the folder of the class, with '/' between folders
    std::string participant;  ///< name, or the code that stands for it
    std::string side;         ///< "left", "right" or empty
    std::string joint, motion;
    std::string condition, trial, rater;
    double age_years = std::numeric_limits<double>::quiet_NaN();
    std::string sex;  ///< "F", "M" or empty
    double load_kg = std::numeric_limits<double>::quiet_NaN();
};

/// One row of trials.csv.
struct TrialRow {
    static constexpr double none = std::numeric_limits<double>::quiet_NaN();

    TrialSubject subject;
    bool done = false;         ///< false: `code` and `reason` say why there are no figures
    std::string code, reason;  ///< of the failure
    std::string positive_direction, negative_direction;
    Measured positive{none, none, none};  ///< farthest in the positive direction, degrees
    Measured negative{none, none, none};  ///< farthest in the negative direction: negative beyond neutral
    Measured arc{none, none, none};
    std::size_t repetitions = 0;
    double mean_arc_deg = none;  ///< over the repetitions
    double mean_arc_sd_deg = none;
    double peak_velocity_deg_s = none;
    std::size_t findings = 0;       ///< rows in findings.csv
    std::string reading_unit;       ///< of the angle channel as logged
    std::string reading_direction;  ///< "rising" or "falling" with the positive direction; empty when not known
    std::string input_sha256;       ///< of the file; empty when it could not be read
    std::string settings_sha256;    ///< of the settings in force, see docs/formats/results.md
};

/// The columns that say who and what, with which the tables of repetitions, phases and findings begin too.
[[nodiscard]] std::span<const RowColumn> subject_columns();
[[nodiscard]] std::vector<Cell> subject_cells(const TrialSubject& subject);

/// Every column of trials.csv, in order; the last is the version of this library.
[[nodiscard]] std::span<const RowColumn> trial_columns();
[[nodiscard]] std::vector<Cell> trial_cells(const TrialRow& row);

}  // namespace jointrom
