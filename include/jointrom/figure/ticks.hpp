#pragma once

/// \file
/// Axes as numbers: the interval that an axis covers, round numbers on it, and the straight line to pixels.

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// From `low` to `high`, both finite.
struct Interval {
    double low;
    double high;

    [[nodiscard]] double span() const noexcept { return high - low; }
    [[nodiscard]] bool contains(double value) const noexcept { return low <= value && value <= high; }
    friend bool operator==(Interval, Interval) noexcept = default;
};

/// The least and greatest value of those within 1e300; nothing when there is none. Missing samples: skipped.
[[nodiscard]] std::optional<Interval> extent_of(std::span<const double> values);
/// The smallest interval that holds both.
[[nodiscard]] std::optional<Interval> joined(std::optional<Interval> a, std::optional<Interval> b);

/// Room around data on an axis.
struct Padding {
    double below_share = 0.05;  ///< of the span
    double above_share = 0.05;
    double least_span = 0.0;  ///< of the data before padding, so that noise about one value does not fill the axis
};

/// The interval of an axis for data: 0 to 1 when there are none; never empty.
[[nodiscard]] Interval axis_interval(std::optional<Interval> data, const Padding& padding = {});

/// Which steps between ticks are round.
enum class TickSteps {
    decimal,  ///< 1, 2, 5 times a power of ten
    degrees   ///< the same below 10; 10, 15, 30, 45, 90, 180, 360 above
};

struct Ticks {
    std::vector<double> values;  ///< multiples of the step within the interval, ascending
    double step = 1.0;
    int decimals = 0;  ///< of the labels

    /// A tick's label; minus is the minus sign.
    [[nodiscard]] std::string text(double value) const;
};

/// Round numbers within an interval.
///
/// Method: the smallest round step with which no more than `at_most` multiples lie in the interval.
/// \pre interval.low < interval.high; at_most >= 1
/// \par Reference P. S. Heckbert 1990, Nice numbers for graph labels, in Graphics Gems (steps of 1, 2, 5)
[[nodiscard]] Ticks nice_ticks(Interval interval, std::size_t at_most, TickSteps steps = TickSteps::decimal);

/// A straight line from values to pixels.
struct Scale {
    Interval values;
    double first_px;  ///< of values.low
    double last_px;   ///< of values.high; less than first_px where the axis points up

    [[nodiscard]] double operator()(double value) const noexcept {
        return first_px + (value - values.low) / values.span() * (last_px - first_px);
    }
};

}  // namespace jointrom
