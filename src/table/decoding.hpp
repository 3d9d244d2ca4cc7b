#pragma once

/// \file
/// From bytes to UTF-8: which encoding a text is in, and its conversion.

#include <jointrom/table/table_description.hpp>

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace jointrom {

struct EncodingGuess {
    Encoding encoding = Encoding::utf8;
    std::size_t mark_bytes = 0;  ///< length of the byte order mark at the front
};

/// The encoding that the front of a text shows.
///
/// Method: a byte order mark decides; else zero bytes at only odd (even) places of the first 4 KiB mean UTF-16 with the
/// low (high) byte first; else UTF-8. Whether it is really Windows-1252 is seen where there is text: text_as_utf8().
[[nodiscard]] EncodingGuess guess_encoding(std::string_view head);

/// The name of what `head` is if it is not text: "a compressed archive or spreadsheet workbook", say; empty for text.
[[nodiscard]] std::string_view not_text_but(std::string_view head);

[[nodiscard]] bool is_utf8(std::string_view bytes);

/// `bytes` as they are if they are UTF-8, else converted from Windows-1252.
[[nodiscard]] std::string text_as_utf8(std::string_view bytes);

/// Converts UTF-16 to UTF-8 piece by piece; half a character at the end of a piece waits for the next.
class Utf16Decoder {
  public:
    explicit Utf16Decoder(bool big_endian) : big_endian_(big_endian) {}

    /// Converts `bytes` to the front of `text` and returns the length. An unpaired surrogate becomes U+FFFD.
    /// \pre text.size() >= needed(bytes.size())
    std::size_t decode(std::span<const char> bytes, std::span<char> text);

    /// Room that `byte_count` bytes may need at most.
    [[nodiscard]] static constexpr std::size_t needed(std::size_t byte_count) { return byte_count / 2 * 3 + 8; }

  private:
    void put(unsigned unit, char*& out);

    bool big_endian_;
    bool has_byte_ = false;
    unsigned char byte_ = 0;
    unsigned high_ = 0;  ///< first half of a pair that waits for its second
};

}  // namespace jointrom
