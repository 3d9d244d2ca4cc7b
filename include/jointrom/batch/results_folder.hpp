#pragma once

/// \file
/// The folder that the tables of a class are written to: all of them, or none.

#include <jointrom/core/whole_file.hpp>

#include <filesystem>
#include <map>
#include <memory>
#include <string>
#include <string_view>

namespace jointrom {

/// Files grow under temporary names; commit() gives them their names. Without commit(), or after a failure, what was in
/// the folder before is untouched, and a folder that was made is gone again.
class ResultsFolder {
  public:
    /// Makes the folder unless it is there.
    /// \throws Failure usage "folder-not-empty" when it holds files but no results of an earlier run, "folder-in-use"
    ///   while another run writes there; cannot_create "cannot-create"
    explicit ResultsFolder(std::filesystem::path folder);
    ~ResultsFolder();
    ResultsFolder(const ResultsFolder&) = delete;
    ResultsFolder& operator=(const ResultsFolder&) = delete;

    /// Whether the folder holds the results of an earlier run.
    [[nodiscard]] bool has_earlier() const noexcept { return has_earlier_; }
    [[nodiscard]] const std::filesystem::path& path() const noexcept { return folder_; }

    /// Appends to the file with this name. \throws Failure as WholeFile
    void append(std::string_view name, std::string_view text);

    /// Stores everything, then names it, settings.json last: where that stands, the rest is whole. Files of an earlier
    /// run that were not written this time are removed.
    /// \throws Failure as WholeFile
    void commit();

  private:
    std::filesystem::path folder_;
    bool has_earlier_ = false;
    bool is_made_ = false;
    bool is_committed_ = false;
    /// Rows are small and many; they are passed on in larger pieces.
    struct File {
        std::unique_ptr<WholeFile> file;
        std::string pending;
        void pass_on();
    };
    std::map<std::string, File, std::less<>> files_;
};

/// Where the settings of a run, and what came of it, are written.
inline constexpr std::string_view settings_file_name = "settings.json";

/// The table of recordings that a user means by a name: of a results folder its trials.csv, else what is named.
[[nodiscard]] std::string results_table_named(const std::string& name);

}  // namespace jointrom
