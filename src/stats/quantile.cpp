#include <jointrom/stats/quantile.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <limits>
#include <numeric>

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

/// Moves the order statistic `rank` (counted from 0) of the values between the ends to its place, and returns it.
double selected(std::span<double> values, std::size_t from, std::size_t rank) {
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values.begin() + static_cast<std::ptrdiff_t>(from), place, values.end());
    return *place;
}

double between(double lower, double upper, double share) {
    if (share == 0.0 || lower == upper) {
        return lower;
    }
    return share == 1.0 ? upper : (1.0 - share) * lower + share * upper;
}

/// Indices of the probabilities, smallest first.
std::vector<std::size_t> rising(std::span<const double> probabilities) {
    std::vector<std::size_t> order(probabilities.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return probabilities[i]; });
    return order;
}

}  // namespace

std::vector<double> quantiles_in_place(std::span<double> values, std::span<const double> probabilities,
                                       QuantileDefinition definition) {
    std::vector<double> result(probabilities.size(), std::numeric_limits<double>::quiet_NaN());
    const auto missing = std::partition(values.begin(), values.end(), [](double value) { return !std::isnan(value); });
    const std::span<double> present(values.begin(), missing);
    if (present.empty()) {
        return result;
    }
    const auto n = static_cast<double>(present.size());
    const auto rank_of = [&](double k) { return static_cast<std::size_t>(std::clamp(k, 1.0, n)) - 1; };
    std::size_t placed = 0;  // all below it are smaller than what comes
    for (const std::size_t i : rising(probabilities)) {
        assert(probabilities[i] >= 0.0 && probabilities[i] <= 1.0);
        const Position position = position_of(definition, n, probabilities[i]);
        placed = std::min(placed, rank_of(position.below));
        const double lower = selected(present, placed, rank_of(position.below));
        placed = rank_of(position.below);
        const std::size_t next = rank_of(position.below + 1.0);
        const double upper =
            next == placed || position.share == 0.0
                ? lower
                : *std::min_element(present.begin() + static_cast<std::ptrdiff_t>(next), present.end());
        result[i] = between(lower, upper, position.share);
    }
    return result;
}

std::vector<double> quantiles(std::span<const double> values, std::span<const double> probabilities,
                              QuantileDefinition definition) {
    std::vector<double> copy(values.begin(), values.end());
    return quantiles_in_place(copy, probabilities, definition);
}

double quantile(std::span<const double> values, double probability, QuantileDefinition definition) {
    return quantiles(values, std::array{probability}, definition).front();
}

}  // namespace jointrom
