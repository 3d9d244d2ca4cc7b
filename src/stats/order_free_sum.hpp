#pragma once

/// \file
/// A sum that is the same, to the last bit, whatever the order of its parts.

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace jointrom {

/// Adds numbers as whole multiples of a tiny unit.
///
/// Method: each number is rounded to a multiple of 2^-(2b) of the largest size, b = 62 bits less those of the count,
/// and split in two halves of b bits, which are summed as 64-bit integers without rounding. \par Accuracy for a million
/// numbers each is rounded by 2^-84 of the largest size
class OrderFreeSum {
  public:
    /// \param largest_size no number is larger in size; finite \param count not more numbers than that
    OrderFreeSum(double largest_size, std::size_t count)
        : bits_(61 - static_cast<int>(std::bit_width(count))),
          exponent_(largest_size > smallest_size ? std::ilogb(largest_size) + 1 : smallest_exponent),
          scale_(std::ldexp(1.0, bits_ - exponent_)), low_scale_(std::ldexp(1.0, bits_)) {}

    void add(double value) {
        const double scaled = value * scale_;
        const auto high = static_cast<std::int64_t>(scaled);
        high_ += high;
        low_ += static_cast<std::int64_t>((scaled - static_cast<double>(high)) * low_scale_);
    }

    [[nodiscard]] double value() const {
        const double low = std::ldexp(static_cast<double>(low_), exponent_ - 2 * bits_);
        return std::ldexp(static_cast<double>(high_), exponent_ - bits_) + low;
    }

  private:
    // Smaller sizes than that are rounded to multiples of a unit that still can be written as a double.
    static constexpr int smallest_exponent = -900;
    static constexpr double smallest_size = 0x1p-900;

    int bits_;
    int exponent_;
    double scale_;
    double low_scale_;
    std::int64_t high_ = 0;
    std::int64_t low_ = 0;
};

}  // namespace jointrom
