#include <jointrom/figure/ticks.hpp>

#include <jointrom/core/number_text.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::array decimal_steps{1.0, 2.0, 5.0};
constexpr std::array degree_steps{10.0, 15.0, 30.0, 45.0, 90.0, 180.0, 360.0};

constexpr double largest_drawn = 1e300;  ///< beyond it the span of an axis is no number

double first_multiple(double low, double step) {
    return std::ceil(low / step - 1e-9);
}

double last_multiple(double high, double step) {
    return std::floor(high / step + 1e-9);
}

bool fits(Interval interval, double step, std::size_t at_most) {
    return last_multiple(interval.high, step) - first_multiple(interval.low, step) + 1.0 <=
           static_cast<double>(at_most);
}

double nice_step(Interval interval, std::size_t at_most, TickSteps steps) {
    // One power of ten below the step that divides the interval evenly is small enough to start from.
    const int first_power =
        static_cast<int>(std::floor(std::log10(interval.span() / static_cast<double>(at_most)))) - 1;
    for (int power = first_power;; ++power) {
        if (steps == TickSteps::degrees && power == 1) {
            const auto* const found = std::ranges::find_if(
                degree_steps, [&](double candidate) { return fits(interval, candidate, at_most); });
            if (found != degree_steps.end()) {
                return *found;
            }
            power = 3;
        }
        for (const double mantissa : decimal_steps) {
            // A quotient is the nearest number to a step below 1; a product with 0.1 is not.
            const double candidate = power < 0 ? mantissa / std::pow(10.0, -power) : mantissa * std::pow(10.0, power);
            if (fits(interval, candidate, at_most)) {
                return candidate;
            }
        }
    }
}

}  // namespace

std::optional<Interval> extent_of(std::span<const double> values) {
    std::optional<Interval> extent;
    for (const double value : values) {
        if (!(std::abs(value) <= largest_drawn)) {
            continue;
        }
        if (!extent) {
            extent = Interval{value, value};
        }
        extent->low = std::min(extent->low, value);
        extent->high = std::max(extent->high, value);
    }
    return extent;
}

std::optional<Interval> joined(std::optional<Interval> a, std::optional<Interval> b) {
    if (!a || !b) {
        return a ? a : b;
    }
    return Interval{std::min(a->low, b->low), std::max(a->high, b->high)};
}

Interval axis_interval(std::optional<Interval> data, const Padding& padding) {
    if (!data) {
        return {0.0, 1.0};
    }
    const double size = std::max(std::abs(data->low), std::abs(data->high));
    const double least = std::max({padding.least_span, 1e-9 * size, data->span() > 0.0 ? 0.0 : 0.1 * size, 1e-300});
    const double missing = std::max(0.0, least - data->span());
    Interval widened{data->low - 0.5 * missing, data->high + 0.5 * missing};
    if (!(widened.span() > 0.0) || size == 0.0) {
        widened = missing > 1e-200 ? widened : Interval{data->low - 0.5, data->high + 0.5};
    }
    const double span = widened.span();
    return {widened.low - padding.below_share * span, widened.high + padding.above_share * span};
}

std::string Ticks::text(double value) const {
    std::string label = std::abs(value) >= 1e7 || decimals > 6 ? shortest_text(value) : fixed_text(value, decimals);
    if (label.starts_with('-')) {
        label.replace(0, 1, "\u2212");
    }
    return label;
}

Ticks nice_ticks(Interval interval, std::size_t at_most, TickSteps steps) {
    assert(interval.low < interval.high && at_most >= 1);
    Ticks ticks;
    ticks.step = nice_step(interval, at_most, steps);
    const double first = first_multiple(interval.low, ticks.step);
    const auto count = static_cast<std::size_t>(std::max(0.0, last_multiple(interval.high, ticks.step) - first + 1.0));
    const int power = static_cast<int>(std::floor(std::log10(ticks.step) + 1e-9));
    ticks.decimals = std::max(0, -power);
    for (std::size_t i = 0; i < count; ++i) {
        const double multiple = first + static_cast<double>(i);
        ticks.values.push_back(power < 0 ? multiple / std::round(1.0 / ticks.step) : multiple * ticks.step);
    }
    return ticks;
}

}  // namespace jointrom
