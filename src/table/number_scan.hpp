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

/// How the last number of a column was written; the next is tried in that shape first. What follows from the digits
/// before and behind the mark is worked out once for all numbers of that shape.
struct NumberShape {
    /// Bytes behind a number that are looked at.
    static constexpr std::size_t reach = 16;

    NumberShape() = default;
    /// \pre 1 <= whole, and at most eight digits and mark
    NumberShape(std::size_t whole, std::size_t decimals, char decimal_mark);

    bool is_known() const { return length > 0; }

    bool many_digits = false;  ///< the last number needed fast_float, which is then asked first

    // Of a number without its sign, as text in an integer whose lowest byte is the first character:
    std::uint8_t length = 0;        ///< characters; 0 when nothing is expected
    std::uint8_t unused = 0;        ///< bits that digits leave free
    std::uint64_t before_mark = 0;  ///< bits of the digits before the mark
    std::uint64_t mark_bits = 0;    ///< of the mark, 0 without one
    std::uint64_t mark = 0;         ///< the mark, at its place
    std::uint64_t zeros = 0;        ///< that many characters '0', above the unused bits
    double power_of_ten = 1.0;      ///< that the digits are divided by
};

namespace number_scan {

inline constexpr std::array<double, 23> power_of_ten = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                        1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                        1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

inline bool is_digit(char c) {
    return static_cast<unsigned>(static_cast<unsigned char>(c)) - unsigned{'0'} <= 9;
}

/// mantissa / power with its sign. Exact powers and an exact mantissa: one division rounds correctly.
inline double value_of(std::uint64_t mantissa, double power, std::uint64_t negative) {
    // Below 2^53 the conversion of a signed integer is the same, and takes one instruction.
    const double magnitude = static_cast<double>(static_cast<std::int64_t>(mantissa)) / power;
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
inline bool scan_alike(const char* p, const NumberShape& shape, std::uint64_t& mantissa) {
    std::uint64_t text = 0;
    std::memcpy(&text, p, sizeof text);
    const std::uint64_t digits = (text & shape.before_mark) | (text >> 8 & ~shape.before_mark);
    const std::uint64_t values = (digits << shape.unused) ^ shape.zeros;
    const std::uint64_t no_digits = ((values + 0x7676767676767676) | values) & 0x8080808080808080;
    if ((no_digits | ((text & shape.mark_bits) ^ shape.mark)) != 0) {
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

inline NumberShape::NumberShape(std::size_t whole, std::size_t decimals, char decimal_mark)
    : length(static_cast<std::uint8_t>(whole + decimals + (decimals > 0 ? 1U : 0U))),
      unused(static_cast<std::uint8_t>(64U - 8U * (whole + decimals))),
      // Without a mark all characters stand before it.
      before_mark(decimals > 0 ? (std::uint64_t{1} << 8U * whole) - 1 : ~std::uint64_t{0}),
      mark_bits(decimals > 0 ? std::uint64_t{0xFF} << 8U * whole : 0U),
      mark(decimals > 0 ? std::uint64_t{static_cast<unsigned char>(decimal_mark)} << 8U * whole : 0U),
      zeros(std::uint64_t{0x3030303030303030} << unused), power_of_ten(number_scan::power_of_ten[decimals]) {}

/// Reads a decimal number at `at`: an optional minus, digits, optionally `decimal_mark` and digits, optionally an
/// exponent. Returns whether there is one, and moves `at` behind it; otherwise `at` stays.
///
/// Method: a short number is first tried in the shape of the one before. Else up to 19 digits are gathered in an
/// integer m. While m < 2^53 and there are at most 22 decimals, m and the power of ten are exact doubles and one
/// division rounds correctly; everything else goes to fast_float, so the result is the same bit for bit.
///
/// \param shape         of the number before in the column, read with this mark or without any; updated
/// \param decimal_mark  '.' or ','; anything else reads whole numbers only
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
        const char next = p[shape.length];
        // A digit, a mark or an exponent behind it would make it another number.
        const bool ends = next < '.' && next != decimal_mark;
        if (shape.is_known() && (ends || next == ';') && scan_alike(p, shape, mantissa)) [[likely]] {
            value = value_of(mantissa, shape.power_of_ten, negative);
            at = p + shape.length;
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
    shape = is_short ? NumberShape(whole, decimals, decimal_mark) : NumberShape();
    value = value_of(mantissa, power_of_ten[decimals], negative);
    at = p;
    return true;
}

}  // namespace jointrom
