#pragma once

/// \file
/// Whether somebody writes into a file while it is read.

#include <jointrom/core/failure.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace jointrom {

/// What changes when somebody writes into a file.
struct FileStamp {
    std::int64_t size = 0;
    std::int64_t changed_s = 0;
    std::int64_t changed_ns = 0;
    friend bool operator==(const FileStamp&, const FileStamp&) = default;
};

/// The stamp of an open file; nothing for what is no regular file, such as a pipe.
[[nodiscard]] std::optional<FileStamp> find_file_stamp(int descriptor);

/// Failure unreadable_data "file-changed", for a file whose stamp is another at its end than it was when it was opened.
[[nodiscard]] Failure file_changed(const std::filesystem::path& path, std::string advice);

}  // namespace jointrom
