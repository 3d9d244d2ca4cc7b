#include <table/decoding.hpp>

#include <table/byte_scan.hpp>

#include <algorithm>
#include <array>
#include <utility>

namespace jointrom {
namespace {

using namespace std::string_view_literals;

/// Code points of the bytes 0x80 to 0x9F in Windows-1252 (WHATWG Encoding Standard, index windows-1252).
constexpr std::array<unsigned, 32> windows_1252_controls = {
    0x20AC, 0x81,   0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0x8D,   0x017D, 0x8F,   0x90,   0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D,   0x017E, 0x0178};

char byte_of(unsigned value) {
    return static_cast<char>(static_cast<unsigned char>(value));
}

void put_utf8(unsigned code, char*& out) {
    if (code < 0x80) {
        *out++ = byte_of(code);
        return;
    }
    if (code < 0x800) {
        *out++ = byte_of(0xC0 | (code >> 6));
    } else {
        if (code < 0x10000) {
            *out++ = byte_of(0xE0 | (code >> 12));
        } else {
            *out++ = byte_of(0xF0 | (code >> 18));
            *out++ = byte_of(0x80 | ((code >> 12) & 0x3F));
        }
        *out++ = byte_of(0x80 | ((code >> 6) & 0x3F));
    }
    *out++ = byte_of(0x80 | (code & 0x3F));
}

bool is_continuation(unsigned char byte) {
    return (byte & 0xC0) == 0x80;
}

/// Length of the well-formed sequence at the front (Unicode 15, table 3-7), 0 if there is none.
std::size_t utf8_sequence(std::string_view text) {
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(i < text.size() ? text[i] : 0); };
    const unsigned char lead = at(0);
    const unsigned char second = at(1);
    if (lead < 0x80) {
        return 1;
    }
    if (lead >= 0xC2 && lead <= 0xDF) {
        return is_continuation(second) ? 2 : 0;
    }
    if (lead >= 0xE0 && lead <= 0xEF) {
        const bool second_fits =
            is_continuation(second) && !(lead == 0xE0 && second < 0xA0) && !(lead == 0xED && second > 0x9F);
        return second_fits && is_continuation(at(2)) ? 3 : 0;
    }
    if (lead >= 0xF0 && lead <= 0xF4) {
        const bool second_fits =
            is_continuation(second) && !(lead == 0xF0 && second < 0x90) && !(lead == 0xF4 && second > 0x8F);
        return second_fits && is_continuation(at(2)) && is_continuation(at(3)) ? 4 : 0;
    }
    return 0;
}

}  // namespace

EncodingGuess guess_encoding(std::string_view head) {
    if (head.starts_with("\xEF\xBB\xBF"sv)) {
        return {Encoding::utf8_with_mark, 3};
    }
    if (head.starts_with("\xFF\xFE"sv)) {
        return {Encoding::utf16_little_endian, 2};
    }
    if (head.starts_with("\xFE\xFF"sv)) {
        return {Encoding::utf16_big_endian, 2};
    }
    if (head.substr(0, 4096).find('\0') == std::string_view::npos) {
        return {};
    }
    std::array<std::size_t, 2> zeros = {0, 0};
    const std::size_t count = std::min<std::size_t>(head.size(), 4096) & ~std::size_t{1};
    for (std::size_t i = 0; i < count; ++i) {
        zeros[i % 2] += head[i] == '\0' ? 1U : 0U;
    }
    // Numbers, marks and line ends all have a zero half; a few letters may not.
    const std::size_t most = count / 2 - count / 16;
    if (count >= 4 && zeros[0] == 0 && zeros[1] >= most) {
        return {Encoding::utf16_little_endian, 0};
    }
    if (count >= 4 && zeros[1] == 0 && zeros[0] >= most) {
        return {Encoding::utf16_big_endian, 0};
    }
    return {};
}

std::string_view not_text_but(std::string_view head) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 7> signatures = {{
        {"PK\x03\x04"sv, "a compressed archive or a spreadsheet workbook"},
        {"\xD0\xCF\x11\xE0"sv, "an old spreadsheet workbook"},
        {"%PDF"sv, "a PDF document"},
        {"\x89PNG"sv, "a picture"},
        {"\xFF\xD8\xFF"sv, "a picture"},
        {"\x1F\x8B"sv, "a compressed file"},
        {"\x89HDF"sv, "a binary data file"},
    }};
    for (const auto& [signature, name] : signatures) {
        if (head.starts_with(signature)) {
            return name;
        }
    }
    const std::string_view front = head.substr(0, 1024);
    const std::size_t controls = count_bytes(
        front, [](unsigned char byte) { return (byte < 0x20) & ((byte < '\t') | (byte > '\r')) & (byte != 0x1A); });
    return controls * 50 > front.size() ? "binary data" : ""sv;
}

bool is_utf8(std::string_view bytes) {
    while (!bytes.empty()) {
        const std::size_t length = utf8_sequence(bytes);
        if (length == 0) {
            return false;
        }
        bytes.remove_prefix(length);
    }
    return true;
}

std::string text_as_utf8(std::string_view bytes) {
    if (is_utf8(bytes)) {
        return std::string(bytes);
    }
    std::string text(bytes.size() * 3, '\0');
    char* out = text.data();
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        put_utf8(byte >= 0x80 && byte < 0xA0 ? windows_1252_controls[byte - 0x80U] : byte, out);
    }
    text.resize(static_cast<std::size_t>(out - text.data()));
    return text;
}

std::size_t Utf16Decoder::decode(std::span<const char> bytes, std::span<char> text) {
    char* out = text.data();
    for (const char c : bytes) {
        const auto byte = static_cast<unsigned char>(c);
        if (!std::exchange(has_byte_, !has_byte_)) {
            byte_ = byte;
            continue;
        }
        const unsigned first = byte_;
        put(big_endian_ ? (first << 8 | byte) : (static_cast<unsigned>(byte) << 8 | first), out);
    }
    return static_cast<std::size_t>(out - text.data());
}

void Utf16Decoder::put(unsigned unit, char*& out) {
    constexpr unsigned replacement = 0xFFFD;
    const bool is_high = unit >= 0xD800 && unit < 0xDC00;
    const bool is_low = unit >= 0xDC00 && unit < 0xE000;
    const unsigned high = std::exchange(high_, 0U);
    if (high != 0 && is_low) {
        put_utf8(0x10000 + ((high - 0xD800) << 10) + (unit - 0xDC00), out);
        return;
    }
    if (high != 0) {
        put_utf8(replacement, out);
    }
    if (is_high) {
        high_ = unit;
        return;
    }
    put_utf8(is_low ? replacement : unit, out);
}

}  // namespace jointrom
