#pragma once

/// \file
/// Pseudo-random numbers that are the same on every machine: nothing is left to the standard library's distributions,
/// nor to how a machine computes logarithms.

#include <cstdint>
#include <optional>
#include <string_view>

namespace jointrom {

/// A stream of numbers that its seed, and what it is for, determine.
///
/// \par Reference G. L. Steele, D. Lea, C. H. Flood 2014, Fast splittable pseudorandom number generators (SplitMix64);
///      G. Marsaglia, T. A. Bray 1964, SIAM Rev 6:260 (polar method for normal numbers)
class RandomNumbers {
  public:
    explicit RandomNumbers(std::uint64_t seed) noexcept : state_(seed) {}
    /// A stream of its own for each purpose, so that what one part draws leaves the others as they are. The purpose is
    /// mixed in by the FNV-1a hash of its bytes.
    RandomNumbers(std::uint64_t seed, std::string_view purpose) noexcept;

    /// 64 random bits.
    [[nodiscard]] std::uint64_t bits() noexcept;
    /// Even over 0 to 1, without 1; a multiple of 2^-53.
    [[nodiscard]] double uniform() noexcept;
    /// Normal, mean 0, SD 1.
    [[nodiscard]] double normal() noexcept;

  private:
    std::uint64_t state_;
    std::optional<double> spare_;
};

}  // namespace jointrom
