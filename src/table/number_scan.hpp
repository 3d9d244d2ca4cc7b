#pragma once

/// \file
/// The fast way through a plain decimal number, inlined into the loop over rows.

#include <fast_float/fast_float.h>

#include <array>
#include <bit>
#include <cstdint>

namespace jointrom {

/// The general way; `many_digits` tells whether it was needed.
inline bool scan_long_number(const char*& at, const char* end, char decimal_mark, bool& many_digits, double& value) {
    const auto [stop, status] = fast_float::from_chars_advanced(
        at, end, value, fast_float::parse_options(fast_float::chars_format::general, decimal_mark));
    many_digits = stop - at > 16;
    at = stop;
    return status == std::errc();
}

/// Reads a decimal number at `at`: an optional minus, digits, optionally `decimal_mark` and digits, optionally an
/// exponent. Returns whether there is one, and moves `at` behind it.
///
/// Method: up to 19 digits are gathered in an integer m. While m < 2^53 and there are at most 22 decimals, m and the
/// power of ten are exact doubles and one division rounds correctly; everything else goes to fast_float, so the result
/// is the same bit for bit. The sign is or-ed in, since a branch on it would often be mispredicted.
/// \param many_digits  whether the number before needed fast_float, which is then asked first; updated
/// \param decimal_mark  '.' or ','; anything else reads whole numbers only
/// \pre a character that is neither a digit nor a decimal mark follows in the buffer, with `end` behind it
/// \par Reference  W. D. Clinger, "How to read floating point numbers accurately", PLDI 1990 (the exact case)
inline bool scan_number(const char*& at, const char* end, char decimal_mark, bool& many_digits, double& value) {
    static constexpr std::array<double, 23> power_of_ten = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                            1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                            1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    const auto digit = [](char c) { return static_cast<unsigned>(static_cast<unsigned char>(c)) - unsigned{'0'}; };
    const char* p = at;
    const std::uint64_t negative = *p == '-' ? 1U : 0U;
    p += negative;
    if (many_digits && digit(*p) <= 9) [[unlikely]] {
        return scan_long_number(at, end, decimal_mark, many_digits, value);
    }
    const char* const first = p;
    std::uint64_t mantissa = 0;
    while (digit(*p) <= 9) {
        mantissa = mantissa * 10 + digit(*p++);
    }
    std::ptrdiff_t digits = p - first;
    std::ptrdiff_t decimals = 0;
    if (*p == decimal_mark) {
        const char* const behind_mark = ++p;
        while (digit(*p) <= 9) {
            mantissa = mantissa * 10 + digit(*p++);
        }
        decimals = p - behind_mark;
        digits += decimals;
    }
    if (digits == 0) {
        return false;
    }
    if (digits > 19 || mantissa >= std::uint64_t{1} << 53 || decimals > 22 || (*p | 0x20) == 'e') [[unlikely]] {
        return scan_long_number(at, end, decimal_mark, many_digits, value);
    }
    const double magnitude = static_cast<double>(mantissa) / power_of_ten[static_cast<std::size_t>(decimals)];
    value = std::bit_cast<double>(std::bit_cast<std::uint64_t>(magnitude) | negative << 63);
    at = p;
    return true;
}

}  // namespace jointrom
