#pragma once

/// \file
/// A sum that is the same, to the last bit, whatever the order of its parts.

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace jointrom {

/// Numbers as whole multiples of a tiny unit, which can be added without rounding.
///
/// Method: each number is rounded to a multiple of 2^-(2b) of the largest size, b = 61 bits less those of the count,
/// and split in two halves of b bits, which are summed as 64-bit integers. \par Accuracy for a million numbers each is
/// rounded by 2^-82 of the largest size
class OrderFreeScale {
  public:
    struct Sum {
        std::int64_t high = 0;
        std::int64_t low = 0;
    };

    /// \param largest_size no number is larger in size; finite \param count not more numbers are added up
    OrderFreeScale(double largest_size, std::size_t count)
        : bits_(61 - static_cast<int>(std::bit_width(count))),
          exponent_(largest_size > smallest_size ? std::ilogb(largest_size) + 1 : smallest_exponent),
          scale_(std::ldexp(1.0, bits_ - exponent_)), low_scale_(std::ldexp(1.0, bits_)) {}

    void add(double value, Sum& sum) const {
        const double scaled = value * scale_;
        const auto high = static_cast<std::int64_t>(scaled);
        sum.high += high;
        sum.low += static_cast<std::int64_t>((scaled - static_cast<double>(high)) * low_scale_);
    }

    [[nodiscard]] double value_of(Sum sum) const {
        const double low = std::ldexp(static_cast<double>(sum.low), exponent_ - 2 * bits_);
        return std::ldexp(static_cast<double>(sum.high), exponent_ - bits_) + low;
    }

  private:
    // Smaller sizes than that are rounded to multiples of a unit that still can be written as a double.
    static constexpr int smallest_exponent = -900;
    static constexpr double smallest_size = 0x1p-900;

    int bits_;
    int exponent_;
    double scale_;
    double low_scale_;
};

class OrderFreeSum {
  public:
    OrderFreeSum(double largest_size, std::size_t count) : scale_(largest_size, count) {}

    void add(double value) { scale_.add(value, sum_); }
    [[nodiscard]] double value() const { return scale_.value_of(sum_); }

  private:
    OrderFreeScale scale_;
    OrderFreeScale::Sum sum_;
};

}  // namespace jointrom
