#pragma once

/// \file
/// The fast way through a plain decimal number, inlined into the loop over rows.

#include <fast_float/fast_float.h>

#include <array>
#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstring>

namespace jointrom {

/// How the last number of a column was written; the next is tried in that shape first.
struct NumberShape {
    /// Bytes behind a number that are looked at.
    static constexpr std::size_t reach = 16;

    std::uint8_t whole = 0;     ///< digits before the mark; 0 when nothing is expected
    std::uint8_t decimals = 0;  ///< digits behind it
    bool many_digits = false;   ///< it needed fast_float, which is then asked first
};

namespace number_scan {

inline constexpr std::array<double, 23> power_of_ten = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                        1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                        1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

inline bool is_digit(char c) {
    return static_cast<unsigned>(static_cast<unsigned char>(c)) - unsigned{'0'} <= 9;
}

/// mantissa / 10^decimals with its sign. Exact powers and an exact mantissa: one division rounds correctly.
inline double value_of(std::uint64_t mantissa, std::size_t decimals, std::uint64_t negative) {
    const double magnitude = static_cast<double>(mantissa) / power_of_ten[decimals];
    // Or-ed in: the signs of an electromyogram cannot be predicted.
    return std::bit_cast<double>(std::bit_cast<std::uint64_t>(magnitude) | negative << 63);
}

/// The general way.
inline bool scan_any(const char*& at, const char* end, char decimal_mark, NumberShape& shape, double& value) {
    const auto [stop, status] = fast_float::from_chars_advanced(
        at, end, value, fast_float::parse_options(fast_float::chars_format::general, decimal_mark));
    if (status != std::errc() || !std::isfinite(value)) {
        return false;
    }
    shape.many_digits = stop - at > 16;
    at = stop;
    return true;
}

/// A number of up to eight bytes at `p` in the shape of the one before: all digits are checked and joined at once.
inline bool scan_alike(const char* p, char decimal_mark, NumberShape shape, std::uint64_t& mantissa) {
    constexpr std::uint64_t zeros = 0x3030303030303030;
    std::uint64_t text = 0;
    std::memcpy(&text, p, sizeof text);
    const unsigned digits = unsigned{shape.whole} + shape.decimals;
    if (shape.decimals > 0) {
        const unsigned mark_at = 8U * shape.whole;
        if (static_cast<char>(text >> mark_at & 0xFF) != decimal_mark) {
            return false;
        }
        const std::uint64_t before = text & ((std::uint64_t{1} << mark_at) - 1);
        text = before | (text >> mark_at >> 8 << mark_at);
    }
    const unsigned unused = 64 - 8 * digits;
    const std::uint64_t values = (text << unused) ^ (zeros << unused);
    if ((((values + 0x7676767676767676) | values) & 0x8080808080808080) != 0) {
        return false;
    }
    // Neighbours are joined to numbers of two, four and eight digits; the first digit is in the lowest byte.
    const std::uint64_t pairs = values * 10 + (values >> 8);
    const std::uint64_t low = (pairs & 0x000000FF000000FF) * 0x000F424000000064;
    const std::uint64_t high = (pairs >> 16 & 0x000000FF000000FF) * 0x0000271000000001;
    mantissa = (low + high) >> 32;
    return true;
}

}  // namespace number_scan

/// Reads a decimal number at `at`: an optional minus, digits, optionally `decimal_mark` and digits, optionally an
/// exponent. Returns whether there is one, and moves `at` behind it; otherwise `at` stays.
///
/// Method: a short number is first tried in the shape of the one before. Else up to 19 digits are gathered in an
/// integer m. While m < 2^53 and there are at most 22 decimals, m and the power of ten are exact doubles and one
/// division rounds correctly; everything else goes to fast_float, so the result is the same bit for bit. \param shape
/// of the number before in the column; updated \param decimal_mark  '.' or ','; anything else reads whole numbers only
/// \pre a character that is neither a digit nor a decimal mark follows in the buffer, with `end` behind it and
///      NumberShape::reach readable bytes behind that
/// \par Reference  W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990 (the exact case)
inline bool scan_number(const char*& at, const char* end, char decimal_mark, NumberShape& shape, double& value) {
    using namespace number_scan;
    const char* p = at;
    const std::uint64_t negative = *p == '-' ? 1U : 0U;
    p += negative;
    std::uint64_t mantissa = 0;
    if constexpr (std::endian::native == std::endian::little) {
        const std::size_t length = std::size_t{shape.whole} + shape.decimals + (shape.decimals > 0 ? 1U : 0U);
        const char next = p[length];
        // A digit, a mark or an exponent behind it would make it another number.
        const bool ends = next < '.' && next != decimal_mark;
        if (shape.whole > 0 && (ends || next == ';') && scan_alike(p, decimal_mark, shape, mantissa)) [[likely]] {
            value = value_of(mantissa, shape.decimals, negative);
            at = p + length;
            return true;
        }
    }
    if (shape.many_digits && is_digit(*p)) [[unlikely]] {
        return scan_any(at, end, decimal_mark, shape, value);
    }
    const char* const first = p;
    mantissa = 0;
    while (is_digit(*p)) {
        mantissa = mantissa * 10 + static_cast<unsigned>(*p++ - '0');
    }
    const auto whole = static_cast<std::size_t>(p - first);
    std::size_t decimals = 0;
    if (*p == decimal_mark) {
        const char* const behind_mark = ++p;
        while (is_digit(*p)) {
            mantissa = mantissa * 10 + static_cast<unsigned>(*p++ - '0');
        }
        decimals = static_cast<std::size_t>(p - behind_mark);
    }
    if (whole + decimals == 0) {
        return false;
    }
    if (whole + decimals > 19 || mantissa >= std::uint64_t{1} << 53 || decimals > 22 || (*p | 0x20) == 'e')
        [[unlikely]] {
        return scan_any(at, end, decimal_mark, shape, value);
    }
    const bool is_short = whole > 0 && p - first <= 8 && (decimals > 0 || p[-1] != decimal_mark);
    shape =
        is_short ? NumberShape{static_cast<std::uint8_t>(whole), static_cast<std::uint8_t>(decimals)} : NumberShape{};
    value = value_of(mantissa, decimals, negative);
    at = p;
    return true;
}

}  // namespace jointrom
