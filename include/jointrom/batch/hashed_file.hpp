#pragma once

/// \file
/// A recording's file, read once: its bytes go to the reader and into the checksum.

#include <jointrom/core/checksum.hpp>
#include <jointrom/table/byte_source.hpp>

#include <cstddef>
#include <filesystem>
#include <string>

namespace jointrom {

class HashedFile final : public ByteSource {
  public:
    /// \throws Failure as file_source()
    explicit HashedFile(std::filesystem::path path);

    std::size_t read(std::span<char> buffer) override;
    [[nodiscard]] std::size_t size_hint() const noexcept override { return file_->size_hint(); }

    /// SHA-256 of the whole file: reads what has not been read yet. \pre called once, last
    /// \throws Failure unreadable_data "file-changed" when size or time of change are not what they were at the start,
    ///   or another number of bytes came
    [[nodiscard]] std::string sha256();

  private:
    struct Stamp {
        std::uintmax_t size = 0;
        std::filesystem::file_time_type changed = {};
        friend bool operator==(const Stamp&, const Stamp&) = default;
    };
    [[nodiscard]] Stamp stamp() const;

    std::filesystem::path path_;
    std::unique_ptr<ByteSource> file_;
    Stamp before_;
    Sha256 hash_;
    std::uintmax_t bytes_ = 0;
};

}  // namespace jointrom
