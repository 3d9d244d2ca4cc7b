#pragma once

/// \file
/// Scalars that cross module borders, one type per physical unit. Nothing converts to or from double by itself, so a
/// sampling rate cannot be passed where a cut-off in seconds is meant. Sample data stay plain arrays of double whose
/// names carry the unit (`angle_deg`, `time_s`).

#include <cmath>
#include <compare>
#include <limits>

namespace jointrom {

/// A number in the unit that `Tag` names; an unset quantity is missing (NaN), never 0.
template <typename Tag>
class Quantity {
  public:
    constexpr Quantity() = default;
    explicit constexpr Quantity(double value) noexcept : value_(value) {}

    /// The bare number, in the unit that the type names.
    [[nodiscard]] constexpr double value() const noexcept { return value_; }
    [[nodiscard]] bool is_set() const noexcept { return !std::isnan(value_); }

    constexpr Quantity operator-() const noexcept { return Quantity(-value_); }
    friend constexpr Quantity operator+(Quantity a, Quantity b) noexcept { return Quantity(a.value_ + b.value_); }
    friend constexpr Quantity operator-(Quantity a, Quantity b) noexcept { return Quantity(a.value_ - b.value_); }
    friend constexpr Quantity operator*(double factor, Quantity a) noexcept { return Quantity(factor * a.value_); }
    friend constexpr double operator/(Quantity a, Quantity b) noexcept { return a.value_ / b.value_; }
    friend constexpr auto operator<=>(Quantity a, Quantity b) noexcept = default;

  private:
    double value_ = std::numeric_limits<double>::quiet_NaN();
};

using Degrees = Quantity<struct DegreesTag>;
using DegreesPerSecond = Quantity<struct DegreesPerSecondTag>;
using Seconds = Quantity<struct SecondsTag>;
using Hertz = Quantity<struct HertzTag>;

/// Time between two samples. \pre rate > 0
[[nodiscard]] constexpr Seconds sample_interval(Hertz rate) noexcept {
    return Seconds(1.0 / rate.value());
}

}  // namespace jointrom
