#include <jointrom/stats/quantile.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

/// Where a quantile lies among the order statistics, counted from 1: `share` of the way from `below` to the next.
struct Position {
    double below;
    double share;
};

Position interpolated_position(double n, double p, double a, double b) {
    const double position = a + p * (n + 1.0 - a - b);
    // A hair of tolerance, so that 3 - 1e-15 counts as 3.
    const double fuzz = 4.0 * std::numeric_limits<double>::epsilon();
    const double below = std::floor(position + fuzz);
    const double share = position - below;
    return {below, std::abs(share) < fuzz ? 0.0 : share};
}

Position position_of(QuantileDefinition definition, double n, double p) {
    using enum QuantileDefinition;
    switch (definition) {
    case hyndman_fan_1:
    case hyndman_fan_2: {
        const Position step = interpolated_position(n, p, 0.0, 1.0);
        const double at_step = definition == hyndman_fan_1 ? 0.0 : 0.5;
        return {step.below, step.share > 0.0 ? 1.0 : at_step};
    }
    case hyndman_fan_3: {
        const Position step = interpolated_position(n, p, -0.5, 1.5);
        const bool on_even_step = step.share == 0.0 && std::fmod(step.below, 2.0) == 0.0;
        return {step.below, on_even_step ? 0.0 : 1.0};
    }
    case hyndman_fan_4:
        return interpolated_position(n, p, 0.0, 1.0);
    case hyndman_fan_5:
        return interpolated_position(n, p, 0.5, 0.5);
    case hyndman_fan_6:
        return interpolated_position(n, p, 0.0, 0.0);
    case hyndman_fan_7:
        return interpolated_position(n, p, 1.0, 1.0);
    case hyndman_fan_8:
        return interpolated_position(n, p, 1.0 / 3.0, 1.0 / 3.0);
    case hyndman_fan_9:
        return interpolated_position(n, p, 3.0 / 8.0, 3.0 / 8.0);
    }
    assert(false);
    return {1.0, 0.0};
}

double at(const std::vector<double>& sorted, Position position) {
    const auto order_statistic = [&](double k) {
        return sorted[static_cast<std::size_t>(std::clamp(k, 1.0, static_cast<double>(sorted.size()))) - 1];
    };
    const double lower = order_statistic(position.below);
    const double upper = order_statistic(position.below + 1.0);
    if (position.share == 0.0 || lower == upper) {
        return lower;
    }
    return position.share == 1.0 ? upper : (1.0 - position.share) * lower + position.share * upper;
}

}  // namespace

std::vector<double> quantiles(std::span<const double> values, std::span<const double> probabilities,
                              QuantileDefinition definition) {
    std::vector<double> sorted(values.begin(), values.end());
    std::erase_if(sorted, [](double value) { return std::isnan(value); });
    std::ranges::sort(sorted);
    std::vector<double> result(probabilities.size(), std::numeric_limits<double>::quiet_NaN());
    if (sorted.empty()) {
        return result;
    }
    std::ranges::transform(probabilities, result.begin(), [&](double p) {
        assert(p >= 0.0 && p <= 1.0);
        return at(sorted, position_of(definition, static_cast<double>(sorted.size()), p));
    });
    return result;
}

double quantile(std::span<const double> values, double probability, QuantileDefinition definition) {
    return quantiles(values, std::array{probability}, definition).front();
}

}  // namespace jointrom
