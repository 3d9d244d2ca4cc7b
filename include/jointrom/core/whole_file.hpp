#pragma once

/// \file
/// Files that are written whole or not at all, and small ones that are read whole.

#include <cstdio>
#include <filesystem>
#include <string>
#include <string_view>

namespace jointrom {

/// Collects text in a temporary file beside `path`; commit() gives it its name. Without commit(), or after a failure,
/// nothing is left behind and a file that was there before is untouched. A device or pipe is written directly.
class WholeFile {
  public:
    /// \throws Failure cannot_create "cannot-create" when the folder is missing or may not be written
    explicit WholeFile(std::filesystem::path path);
    ~WholeFile();
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;

    /// \throws Failure cannot_write "cannot-write" when the text could not be stored, e.g. on a full disk
    void append(std::string_view text);
    /// Stores everything, still under the temporary name: what can fail for want of room has failed by now.
    /// \throws Failure cannot_write as append()
    void finish();
    /// finish(), then the name. \throws Failure as finish(); cannot_create when the file cannot be named
    void commit();

  private:
    void discard() const;
    [[noreturn]] void fail_to_write() const;

    std::filesystem::path path_;
    std::filesystem::path temporary_;
    std::FILE* file_ = nullptr;
    bool is_pending_ = true;  ///< not committed yet
};

/// Writes `text` as the whole content of `path`. \throws Failure as WholeFile
void write_whole_file(const std::filesystem::path& path, std::string_view text);

/// The whole content of a small file, such as settings or a calibration.
/// \param what what the file is, for the message, e.g. "settings file"
/// \throws Failure missing_file "file-missing" when it is not there, is a folder, or may not be read
[[nodiscard]] std::string read_whole_file(const std::filesystem::path& path, std::string_view what);

}  // namespace jointrom
