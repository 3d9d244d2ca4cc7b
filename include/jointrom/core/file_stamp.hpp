#pragma once

/// \file
/// Whether somebody writes into a file while it is read.

#include <jointrom/core/failure.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace jointrom {

/// What changes when somebody writes into a file or puts another in its place.
struct FileStamp {
    std::uint64_t device = 0;
    std::uint64_t number = 0;  ///< on the device
    std::int64_t size = 0;
    std::int64_t changed_s = 0;
    std::int64_t changed_ns = 0;
    friend bool operator==(const FileStamp&, const FileStamp&) = default;
};

/// The stamp of an open file; nothing for what is no regular file, such as a pipe.
[[nodiscard]] std::optional<FileStamp> find_file_stamp(int descriptor);
/// The stamp of the file that has this name now.
[[nodiscard]] std::optional<FileStamp> find_file_stamp(const std::filesystem::path& path);

/// Failure unreadable_data "file-changed", for a file whose stamp is another at its end than it was when it was opened.
[[nodiscard]] Failure file_changed(const std::filesystem::path& path, std::string advice);

/// SHA-256 of a file that has been read. \param before its stamp before that
/// \throws Failure file_changed() when it is another file by now: the checksum would be that of other bytes; as
///   sha256_of_file()
[[nodiscard]] std::string sha256_of_unchanged(const std::filesystem::path& path,
                                              const std::optional<FileStamp>& before);

}  // namespace jointrom
