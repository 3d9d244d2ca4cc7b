#include "even_grid.hpp"

#include <jointrom/signal/order_statistic.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double jitter_share = 0.05;        // of an interval
constexpr double long_step = 1.5;            // median steps; anything longer leaves a place empty
constexpr std::size_t most_places = 4;       // per stamp
constexpr std::size_t free_places = 100000;  // but so many in any case

struct StepSummary {
    double median = 0.0;
    double smallest_rise = 0.0;
    std::size_t repeats = 0;
    std::size_t long_steps = 0;
};

/// The median of up to some ten thousand steps spread over all of them.
double median_step(std::span<const double> time_s) {
    constexpr std::size_t enough = 32768;
    const std::size_t stride = (time_s.size() - 1) / enough + 1;
    std::vector<double> steps;
    steps.reserve(time_s.size() / stride + 1);
    for (std::size_t i = 1; i < time_s.size(); i += stride) {
        steps.push_back(time_s[i] - time_s[i - 1]);
    }
    return select_rank(steps, steps.size() / 2).at;
}

StepSummary summary_of(std::span<const double> time_s) {
    StepSummary summary;
    summary.median = median_step(time_s);
    summary.smallest_rise = time_s.back() - time_s.front();
    const double longest = long_step * summary.median;
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        const double step = time_s[i] - time_s[i - 1];
        summary.repeats += step == 0.0 ? 1U : 0U;
        summary.long_steps += step > longest ? 1U : 0U;
        summary.smallest_rise = step > 0.0 && step < summary.smallest_rise ? step : summary.smallest_rise;
    }
    return summary;
}

/// steps / duration, or the whole number of hertz next to it if that changes the duration by no more than `slack_s`.
double plain_rate(double steps, double duration_s, double slack_s) {
    const double rate_hz = steps / duration_s;
    const double whole = std::round(rate_hz);
    const bool fits = whole >= 1.0 && std::abs(steps / whole - duration_s) <= std::max(slack_s, 1e-9 * duration_s);
    return fits ? whole : rate_hz;
}

/// The largest distance of a stamp from its place.
double largest_deviation(std::span<const double> time_s, const EvenGrid& grid) {
    double largest = 0.0;
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        const std::size_t place = grid.place.empty() ? i : grid.place[i];
        const double expected = grid.start_s + static_cast<double>(place) / grid.rate_hz;
        largest = std::max(largest, std::abs(time_s[i] - expected));
    }
    return largest;
}

std::optional<EvenGrid> if_it_fits(EvenGrid grid, std::span<const double> time_s, double resolution_s) {
    const double allowed = std::max(1.001 * resolution_s, jitter_share / grid.rate_hz);
    return largest_deviation(time_s, grid) <= allowed ? std::optional(std::move(grid)) : std::nullopt;
}

/// A place for every stamp.
std::optional<EvenGrid> grid_without_gaps(std::span<const double> time_s, double resolution_s) {
    const double steps = static_cast<double>(time_s.size() - 1);
    const double duration_s = time_s.back() - time_s.front();
    EvenGrid grid{.start_s = time_s.front(), .rate_hz = steps / duration_s, .count = time_s.size(), .place = {}};
    const bool is_rounded = largest_deviation(time_s, grid) > 0.02 * resolution_s;
    EvenGrid plain = grid;
    plain.rate_hz = plain_rate(steps, duration_s, is_rounded ? resolution_s : 0.0);
    if (auto fitting = if_it_fits(std::move(plain), time_s, resolution_s)) {
        return fitting;
    }
    return if_it_fits(std::move(grid), time_s, resolution_s);
}

/// Several samples on each tick of the clock.
std::optional<EvenGrid> grid_of_slow_clock(std::span<const double> time_s, double tick_s) {
    const auto rises = [](double a, double b) { return a < b; };
    const auto first = std::ranges::adjacent_find(time_s, rises) + 1;
    const auto last = std::adjacent_find(time_s.rbegin(), time_s.rend(), [](double b, double a) { return a < b; });
    const auto first_index = static_cast<double>(first - time_s.begin());
    const auto last_index = static_cast<double>(time_s.rend() - last - 1);
    if (last_index <= first_index) {
        return std::nullopt;
    }
    const double duration_s = *last - *first;
    const double steps = last_index - first_index;
    EvenGrid grid{.start_s = 0.0, .rate_hz = 0.0, .count = time_s.size(), .place = {}};
    grid.rate_hz = plain_rate(steps, duration_s, duration_s / steps);
    grid.start_s = *first - first_index / grid.rate_hz;
    return if_it_fits(std::move(grid), time_s, tick_s);
}

/// Long steps leave places empty.
std::optional<EvenGrid> grid_with_gaps(std::span<const double> time_s, double resolution_s, double median_step_s) {
    double short_sum = 0.0;
    double short_count = 0.0;
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        const double step = time_s[i] - time_s[i - 1];
        if (step <= long_step * median_step_s) {
            short_sum += step;
            short_count += 1.0;
        }
    }
    const double interval_s = short_sum / short_count;
    EvenGrid grid{.start_s = time_s.front(), .rate_hz = 0.0, .count = 0, .place = {}};
    grid.place.reserve(time_s.size());
    grid.place.push_back(0);
    const double limit = static_cast<double>(most_places * time_s.size() + free_places);
    for (std::size_t i = 1; i < time_s.size(); ++i) {
        const double step = time_s[i] - time_s[i - 1];
        const double places = step > long_step * median_step_s ? std::round(step / interval_s) : 1.0;
        if (static_cast<double>(grid.place.back()) + places > limit) {
            return std::nullopt;
        }
        grid.place.push_back(grid.place.back() + static_cast<std::size_t>(places));
    }
    grid.count = grid.place.back() + 1;
    grid.rate_hz = plain_rate(static_cast<double>(grid.place.back()), time_s.back() - time_s.front(), 0.0);
    return if_it_fits(std::move(grid), time_s, resolution_s);
}

}  // namespace

std::optional<EvenGrid> fit_even_grid(std::span<const double> time_s, double resolution_s) {
    if (time_s.size() < 2 || !(time_s.back() > time_s.front())) {
        return std::nullopt;
    }
    const StepSummary steps = summary_of(time_s);
    if (steps.repeats > 0) {
        const bool is_slow_clock = 20 * steps.repeats >= time_s.size();
        return is_slow_clock ? grid_of_slow_clock(time_s, steps.smallest_rise) : std::nullopt;
    }
    // Few long steps are gaps; many are a rate that the stamps are too coarse for (0.00 0.02 0.03 0.05 at 60 Hz).
    if (steps.long_steps > 0 && 10 * steps.long_steps <= time_s.size()) {
        auto grid = grid_with_gaps(time_s, resolution_s, steps.median);
        return grid ? grid : grid_without_gaps(time_s, resolution_s);
    }
    auto grid = grid_without_gaps(time_s, resolution_s);
    return grid || steps.long_steps == 0 ? grid : grid_with_gaps(time_s, resolution_s, steps.median);
}

double decimal_resolution(std::span<const double> stamps) {
    double resolution = 1.0;
    for (double per_unit = 1.0; per_unit < 2e6; per_unit *= 10.0, resolution /= 10.0) {
        const bool all = std::ranges::all_of(stamps, [&](double stamp) {
            const double scaled = stamp * per_unit;
            return std::abs(scaled - std::round(scaled)) < 1e-3;
        });
        if (all && !stamps.empty()) {
            return resolution;
        }
    }
    return 0.0;
}

}  // namespace jointrom
