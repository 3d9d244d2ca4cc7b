#pragma once

/// \file
/// A recording's files, read once: their bytes go to the reader and into the checksum.

#include <jointrom/core/checksum.hpp>
#include <jointrom/core/file_stamp.hpp>
#include <jointrom/table/byte_source.hpp>

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {

class HashedFile final : public ByteSource {
  public:
    /// \throws Failure as file_source()
    explicit HashedFile(std::filesystem::path path);
    ~HashedFile() override;

    std::size_t read(std::span<char> buffer) override;
    [[nodiscard]] std::size_t size_hint() const noexcept override {
        return before_ ? static_cast<std::size_t>(before_->size) : 0;
    }

    /// SHA-256 of the whole file: reads what has not been read yet. \pre called once, last
    /// \throws Failure unreadable_data "file-changed" when size or time of change are not what they were at the start,
    ///   or another number of bytes came
    [[nodiscard]] std::string sha256();

  private:
    std::filesystem::path path_;
    int descriptor_;
    std::optional<FileStamp> before_;
    Sha256 hash_;
    std::int64_t bytes_ = 0;
};

/// A recording and what describes it (recording_files()).
class HashedRecording {
  public:
    /// Opens the files. \throws Failure as recording_files() and file_source()
    explicit HashedRecording(const std::filesystem::path& path);

    /// The bytes of the recording's own file.
    [[nodiscard]] ByteSource& bytes() { return *files_.front(); }

    /// SHA-256 of the file; of several, that of their checksums in hexadecimal digits, a line each, in the order of
    /// recording_files(). \pre called once, last \throws Failure as HashedFile::sha256()
    [[nodiscard]] std::string sha256();

  private:
    std::vector<std::unique_ptr<HashedFile>> files_;
};

}  // namespace jointrom
