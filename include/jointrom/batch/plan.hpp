#pragma once

/// \file
/// From the list of a class to the work to be done: everything that can be found out before a recording is measured.

#include <jointrom/analysis/trial.hpp>
#include <jointrom/batch/class_list.hpp>
#include <jointrom/batch/pseudonyms.hpp>
#include <jointrom/table/table_description.hpp>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// One of several parts of a class, for several machines. Which part a recording belongs to follows from its id alone.
struct Shard {
    std::size_t number = 1;  ///< from 1
    std::size_t count = 1;

    [[nodiscard]] bool holds(std::string_view id) const;
};

/// \param text "K/N" \throws Failure usage "setting-invalid" unless 1 <= K <= N
[[nodiscard]] Shard shard_named(std::string_view text);

/// What recordings with the same settings share: the files that these name, read once, or why they could not be read.
struct SharedReferences {
    References files;
    std::optional<Failure> failure;
    std::string calibration_sha256, neutral_sha256;  ///< empty without such a file
    std::string settings_sha256;                     ///< of the settings in force
};

/// One recording to be measured.
struct TrialTask {
    TrialSubject subject;  ///< as it is written: codes instead of names when they are asked for
    std::filesystem::path path;
    std::string name;  ///< the file as messages name it
    std::vector<EntrySetting> settings;
    std::shared_ptr<const SharedReferences> references;
    std::string date, calibration_date;
    std::string calibration_file;     ///< as the settings have it
    std::vector<std::string> hidden;  ///< what no text may contain; empty unless codes are asked for
};

struct BatchPlan {
    std::filesystem::path folder;     ///< of the class
    Settings settings;                ///< where a task says nothing else
    std::vector<TrialTask> tasks;     ///< of this shard, sorted by file, then id
    std::optional<Dialect> dialect;   ///< how most files are written; nothing when it is stated or cannot be told
    std::vector<std::string> hidden;  ///< names that no output may contain; empty unless codes are asked for
    std::size_t class_size = 0;       ///< recordings in all shards
    Findings findings;

    /// The settings that hold for a task.
    [[nodiscard]] Settings settings_of(const TrialTask& task) const;
};

/// The work to be done.
///
/// Method. id: the manifest's, else the first 16 digits of the SHA-256 of the file's name in the class, a line end, and
/// which part of the file is measured; with codes instead of names, the key's secret is put before it. dialect: the
/// delimiter and decimal mark that most of nine files have, spread evenly over the sorted list of the whole class.
/// \throws Failure usage for what has to be mended first: problems of the list, an unknown motion, settings that
///   contradict each other, recordings listed twice, ids that are not unique
[[nodiscard]] BatchPlan plan_batch(ClassList list, const Settings& settings, Shard shard = {},
                                   const Pseudonyms* pseudonyms = nullptr);

/// Name and value of every setting in the catalogue, in order; files are named by their SHA-256.
[[nodiscard]] std::string settings_fingerprint(const Settings& settings, const SharedReferences& references,
                                               const std::optional<Dialect>& dialect);

}  // namespace jointrom
