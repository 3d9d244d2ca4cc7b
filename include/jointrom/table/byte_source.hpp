#pragma once

/// \file
/// Where the bytes of a table come from. A source is read block by block into a buffer of the reader's, so that a file
/// is never held in memory as a whole.

#include <cstddef>
#include <filesystem>
#include <iosfwd>
#include <memory>
#include <span>
#include <string_view>

namespace jointrom {

class ByteSource {
  public:
    ByteSource() = default;
    ByteSource(const ByteSource&) = delete;
    ByteSource& operator=(const ByteSource&) = delete;
    virtual ~ByteSource() = default;

    /// Fills the front of `buffer` and returns how many bytes it put there; 0 only at the end of the input.
    /// \throws Failure file-unreadable when the input fails on the way
    virtual std::size_t read(std::span<char> buffer) = 0;

    /// Bytes in the whole input, 0 when that is not known beforehand.
    [[nodiscard]] virtual std::size_t size_hint() const noexcept { return 0; }
};

/// A file on disk. Reading fails at its end, with file-changed, when somebody has written into it since it was opened.
/// \throws Failure file-missing, not-a-file (a folder, say) or file-unreadable
[[nodiscard]] std::unique_ptr<ByteSource> file_source(const std::filesystem::path& path);

/// Text in memory, which must outlive the source.
[[nodiscard]] std::unique_ptr<ByteSource> text_source(std::string_view text);

/// A stream such as standard input, which must outlive the source.
[[nodiscard]] std::unique_ptr<ByteSource> stream_source(std::istream& stream);

}  // namespace jointrom
