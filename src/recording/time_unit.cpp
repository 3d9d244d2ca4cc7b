#include "time_unit.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

constexpr TimeUnit seconds{"s", "seconds", 1.0};
constexpr TimeUnit milliseconds{"ms", "milliseconds", 1e-3};
constexpr TimeUnit microseconds{"us", "microseconds", 1e-6};
constexpr TimeUnit minutes{"min", "minutes", 60.0};
constexpr TimeUnit hours{"h", "hours", 3600.0};
constexpr TimeUnit days{"d", "days", 86400.0};

/// Decades by which a value lies outside of a range.
double decades_outside(double value, double low, double high) {
    return std::max({0.0, std::log10(low / value), std::log10(value / high)});
}

double implausibility(const TimeUnit& unit, double step, double duration, Hertz stated) {
    const double rate_hz = 1.0 / (step * unit.seconds);
    if (stated.is_set()) {
        return std::abs(std::log10(rate_hz / stated.value()));
    }
    constexpr double head_start = 0.3;
    constexpr double weight_of_duration = 1.5;
    return decades_outside(rate_hz, 10.0, 2000.0) +
           weight_of_duration * decades_outside(duration * unit.seconds, 3.0, 1800.0) +
           (unit.symbol == seconds.symbol ? 0.0 : head_start);
}

}  // namespace

std::optional<TimeUnit> time_unit_named(std::string_view symbol) {
    for (const TimeUnit& unit : {seconds, milliseconds, microseconds, minutes, hours}) {
        if (unit.symbol == symbol) {
            return unit;
        }
    }
    return std::nullopt;
}

AssumedTimeUnit plausible_time_unit(double step, double duration, Hertz stated) {
    constexpr std::array candidates{seconds, milliseconds, microseconds, days};
    std::array<double, candidates.size()> scores{};
    std::ranges::transform(candidates, scores.begin(),
                           [&](const TimeUnit& unit) { return implausibility(unit, step, duration, stated); });
    const auto best = static_cast<std::size_t>(std::ranges::min_element(scores) - scores.begin());
    constexpr double clear_lead = 0.7;  // decades
    const auto near = std::ranges::count_if(scores, [&](double score) { return score < scores[best] + clear_lead; });
    return {candidates[best], near == 1};
}

}  // namespace jointrom
