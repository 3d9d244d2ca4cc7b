#include <jointrom/recording/repeated_readings.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

namespace jointrom {
namespace {

constexpr std::size_t window_size = 65536;

/// The smallest step between unequal neighbours; infinite when all are equal.
double smallest_step(std::span<const double> samples) {
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const double step = std::abs(samples[i] - samples[i - 1]);
        smallest = step > 0.0 ? std::min(smallest, step) : smallest;
    }
    return smallest;
}

/// Where the samples that lie furthest from their mean are in the middle.
std::span<const double> most_moving_part(std::span<const double> samples) {
    if (samples.size() <= window_size) {
        return samples;
    }
    constexpr std::size_t stride = 64;
    double mean = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < samples.size(); i += stride) {
        if (!std::isnan(samples[i])) {
            mean += samples[i];
            count += 1.0;
        }
    }
    mean /= count;
    std::size_t furthest = 0;
    double distance = -1.0;
    for (std::size_t i = 0; i < samples.size(); i += stride) {
        if (std::abs(samples[i] - mean) > distance) {
            distance = std::abs(samples[i] - mean);
            furthest = i;
        }
    }
    const std::size_t first = furthest - std::min(furthest, window_size / 2);
    return samples.subspan(std::min(first, samples.size() - window_size), window_size);
}

std::size_t median_of(std::vector<std::size_t>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::ranges::nth_element(values, middle);
    return *middle;
}

/// The offset that most of `positions` share, modulo `period`.
std::size_t usual_phase(const std::vector<std::size_t>& positions, std::size_t period) {
    std::vector<std::size_t> counts(period, 0);
    for (const std::size_t position : positions) {
        ++counts[position % period];
    }
    return static_cast<std::size_t>(std::ranges::max_element(counts) - counts.begin());
}

std::optional<RepeatedReadings> find_held(std::span<const double> samples, double resolution, Hertz rate) {
    constexpr double large_step = 2.5;  // smallest steps
    constexpr std::size_t fewest_runs = 10;
    constexpr double clear_length = 1.5;
    std::vector<std::size_t> lengths;
    std::vector<std::size_t> starts;
    std::size_t start = 0;  // of the run, if a large step leads to it
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const double step = std::abs(samples[i] - samples[i - 1]);
        if (step == 0.0) {
            continue;
        }
        const bool is_large = step > large_step * resolution;
        if (is_large && start > 0) {
            lengths.push_back(i - start);
            starts.push_back(start);
        }
        start = is_large ? i : 0;  // a missing sample makes no large step
    }
    if (lengths.size() < fewest_runs) {
        return std::nullopt;
    }
    const double mean = std::accumulate(lengths.begin(), lengths.end(), 0.0) / static_cast<double>(lengths.size());
    if (mean < clear_length) {
        return std::nullopt;
    }
    const std::size_t median = median_of(lengths);
    const bool is_even = 5 * std::ranges::count(lengths, median) >= 4 * std::ranges::ssize(lengths);
    return RepeatedReadings{.kind = RepeatedReadings::Kind::held,
                            .true_rate = Hertz(rate.value() / (is_even ? static_cast<double>(median) : mean)),
                            .every = is_even ? median : static_cast<std::size_t>(std::round(mean)),
                            .first = is_even ? usual_phase(starts, median) : 0};
}

struct PhaseProfile {
    double contrast = 1.0;  ///< largest mean square over those further than 3/8 of a period away
    std::size_t peak = 0;   ///< phase with the largest mean square
};

/// Mean squares of second differences over half a period, by phase. Phases count from sample `first` of a longer part.
PhaseProfile profile_of(std::span<const double> samples, std::size_t first, std::size_t period, double floor) {
    const std::size_t half = period / 2;
    std::vector<double> sums(period, 0.0);
    std::vector<double> counts(period, 0.0);
    for (std::size_t i = half; i + half < samples.size(); ++i) {
        const double bend = samples[i - half] - 2.0 * samples[i] + samples[i + half];
        if (!std::isnan(bend)) {
            const std::size_t phase = (first + i) % period;
            sums[phase] += bend * bend;
            counts[phase] += 1.0;
        }
    }
    std::ranges::transform(sums, counts, sums.begin(),
                           [&](double sum, double count) { return sum / std::max(1.0, count) + floor; });
    PhaseProfile profile;
    profile.peak = static_cast<std::size_t>(std::ranges::max_element(sums) - sums.begin());
    // Around a lone reading the mean square falls to a sixteenth at 3/8 of a period; at a multiple of the true period
    // there is another reading by then.
    double away = 0.0;
    for (std::size_t distance = (3 * period + 7) / 8; distance <= period - (3 * period + 7) / 8; ++distance) {
        away = std::max(away, sums[(profile.peak + distance) % period]);
    }
    profile.contrast = sums[profile.peak] / away;
    return profile;
}

/// Whether second differences of neighbours are no larger than rounding makes them, as within straight lines.
bool is_smooth(std::span<const double> samples, double resolution) {
    std::vector<double> bends;
    for (std::size_t i = 2; i < std::min<std::size_t>(samples.size(), 4096); ++i) {
        const double bend = std::abs(samples[i] - 2.0 * samples[i - 1] + samples[i - 2]);
        if (!std::isnan(bend)) {
            bends.push_back(bend);
        }
    }
    if (bends.empty()) {
        return false;
    }
    const auto middle = bends.begin() + static_cast<std::ptrdiff_t>(bends.size() / 2);
    std::ranges::nth_element(bends, middle);
    return *middle <= 2.5 * resolution;
}

std::optional<RepeatedReadings> find_interpolated(std::span<const double> samples, double resolution, Hertz rate) {
    constexpr std::array<std::size_t, 11> periods{100, 50, 40, 25, 20, 16, 10, 8, 5, 4, 2};
    constexpr std::size_t fewest_per_phase = 100;
    constexpr double clear_contrast = 4.0;
    const std::span<const double> part = most_moving_part(samples);
    if (!is_smooth(part.subspan(part.size() / 2), resolution)) {
        return std::nullopt;
    }
    const auto offset = static_cast<std::size_t>(part.data() - samples.data());
    // Below this, rounding alone could make a contrast where nothing moves.
    const double floor = 0.01 * resolution * resolution;
    const std::size_t half = part.size() / 2;
    for (const std::size_t period : periods) {
        if (part.size() < fewest_per_phase * period) {
            continue;
        }
        // Both halves have to agree, so that one spike or one jerk is no evidence.
        const PhaseProfile early = profile_of(part.first(half), offset, period, floor);
        const PhaseProfile late = profile_of(part.subspan(half), offset + half, period, floor);
        if (early.peak == late.peak && std::min(early.contrast, late.contrast) >= clear_contrast) {
            return RepeatedReadings{.kind = RepeatedReadings::Kind::interpolated,
                                    .true_rate = Hertz(rate.value() / static_cast<double>(period)),
                                    .every = period,
                                    .first = early.peak};
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<RepeatedReadings> find_repeated_readings(std::span<const double> samples, Hertz rate) {
    const double resolution = smallest_step(samples);
    if (!std::isfinite(resolution)) {
        return std::nullopt;
    }
    const auto held = find_held(samples, resolution, rate);
    return held ? held : find_interpolated(samples, resolution, rate);
}

}  // namespace jointrom
