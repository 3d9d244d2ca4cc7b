#pragma once

/// \file
/// The recordings of a class: which files, of whom, and how each is to be read. A manifest (manifest.hpp) or the names
/// of the files themselves (folder_list.hpp) say it.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/batch/trial_row.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/finding.hpp>

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace jointrom {

/// A setting that holds for one recording, whatever the command line says.
struct EntrySetting {
    const SettingKind* kind;
    std::string text;
    std::size_t column;  ///< of the manifest, from 1
    friend bool operator==(const EntrySetting& a, const EntrySetting& b) {
        return a.kind == b.kind && a.text == b.text;
    }
};

/// One recording of a class, or a part of one.
struct ClassEntry {
    TrialSubject subject;  ///< its `id` is empty unless the manifest has one
    std::filesystem::path path;
    std::vector<EntrySetting> settings;  ///< in the order of the manifest's columns
    std::string date;                    ///< of the recording, ISO 8601; empty when not stated
    std::string calibration_date;
    std::size_t line = 0;   ///< of the manifest
    bool is_wanted = true;  ///< false: a part of the class that is not measured this time
};

struct ClassList {
    std::string source;            ///< the manifest or folder as named
    std::filesystem::path folder;  ///< which files are relative to
    std::string sha256;            ///< of the manifest; empty without one
    std::vector<ClassEntry> entries;
    std::vector<Failure> problems;  ///< what has to be mended before work can start, in the order found
    Findings findings;
};

/// One failure that tells all problems, or nothing when there are none.
/// \throws Failure of the first problem's kind: the problem itself, or "class-list-invalid" with every place
void refuse_problems(const std::vector<Failure>& problems);

/// The file that `name` means in the folder of a class. Names are relative, with '/' or '\' between folders.
/// \throws Failure usage "path-outside" when the name is absolute, climbs out of the folder, or a link leads out of it
[[nodiscard]] std::filesystem::path path_inside(const std::filesystem::path& folder, std::string_view name);

}  // namespace jointrom
