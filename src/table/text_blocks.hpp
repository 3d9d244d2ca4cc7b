#pragma once

/// \file
/// A text in blocks of whole lines, in UTF-8 (or Windows-1252, whose digits and marks are the same), through one
/// buffer.

#include <table/decoding.hpp>

#include <jointrom/table/byte_source.hpp>

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

class TextBlocks {
  public:
    /// Bytes that may be read (not used) behind the end of a block.
    static constexpr std::size_t slack = 64;

    /// \param name stands for the input in messages
    /// \throws Failure file-empty, not-text
    TextBlocks(ByteSource& source, std::string name);

    /// The next stretch of whole lines, each ending in '\n'; empty at the end of the input. The view before is void.
    /// \throws Failure line-too-long
    [[nodiscard]] std::string_view next();

    [[nodiscard]] Encoding encoding() const noexcept { return encoding_; }
    /// Whether the block that next() gave last ends in a line that has no line end in the input.
    [[nodiscard]] bool ends_in_a_line() const noexcept { return ends_in_a_line_; }

  private:
    void grow(std::size_t capacity);
    void fill();
    void drop_padding();
    std::size_t read_some();

    ByteSource& source_;
    std::string name_;
    std::unique_ptr<char[]> buffer_;
    std::size_t capacity_ = 0;
    std::size_t begin_ = 0;  ///< bytes of the block given out before
    std::size_t end_ = 0;    ///< bytes filled
    Encoding encoding_ = Encoding::utf8;
    std::optional<Utf16Decoder> utf16_;
    std::vector<char> raw_;          ///< UTF-16 as read
    bool carriage_returns_ = false;  ///< lines end in '\r' alone
    bool at_end_ = false;
    bool ends_in_a_line_ = false;
};

}  // namespace jointrom
