#include <jointrom/recording/repeated_readings.hpp>

#include "quality_checks.hpp"

#include <jointrom/signal/order_statistic.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <vector>

namespace jointrom {
namespace {

constexpr std::size_t window_size = 32768;

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
    constexpr double large_step = 4.5;  // smallest steps
    constexpr std::size_t fewest_runs = 10;
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
    const std::size_t median = median_of(lengths);
    if (median < 2) {
        return std::nullopt;
    }
    const double mean = std::accumulate(lengths.begin(), lengths.end(), 0.0) / static_cast<double>(lengths.size());
    const bool is_even = 5 * std::ranges::count(lengths, median) >= 4 * std::ranges::ssize(lengths);
    return RepeatedReadings{.kind = RepeatedReadings::Kind::held,
                            .true_rate = Hertz(rate.value() / (is_even ? static_cast<double>(median) : mean)),
                            .every = is_even ? median : static_cast<std::size_t>(std::round(mean)),
                            .first = is_even ? usual_phase(starts, median) : 0};
}

double second_difference(std::span<const double> samples, std::size_t i, std::size_t half) {
    return samples[i - half] - 2.0 * samples[i] + samples[i + half];
}

/// What 97 of 100 second differences stay within.
double usual_bend(std::span<const double> samples, std::size_t half) {
    constexpr std::size_t enough = 1024;
    std::vector<double> bends;
    const std::size_t stride = samples.size() / enough | 1U;
    for (std::size_t i = half; i + half < samples.size(); i += stride) {
        const double bend = std::abs(second_difference(samples, i, half));
        if (!std::isnan(bend)) {
            bends.push_back(bend);
        }
    }
    if (bends.empty()) {
        return 0.0;
    }
    return select_rank(bends, 97 * (bends.size() - 1) / 100).at;
}

/// Mean squares of second differences over half a period, by phase. Phases count from sample `first` of a longer part.
/// Differences beyond `most` count as that, so that a few sharp bends (a cut-off top) are no pattern.
std::vector<double> profile_of(std::span<const double> samples, std::size_t first, std::size_t period, double most) {
    const std::size_t half = period / 2;
    std::vector<double> sums(period, 0.0);
    std::vector<double> counts(period, 0.0);
    std::size_t phase = (first + half) % period;
    for (std::size_t i = half; i + half < samples.size(); ++i) {
        const double bend = std::min(most, std::abs(second_difference(samples, i, half)));
        if (!std::isnan(samples[i - half] + samples[i] + samples[i + half])) {
            sums[phase] += bend * bend;
            counts[phase] += 1.0;
        }
        phase = phase + 1 == period ? 0 : phase + 1;
    }
    std::ranges::transform(sums, counts, sums.begin(),
                           [](double sum, double count) { return sum / std::max(1.0, count); });
    return sums;
}

/// How well a profile fits that of readings joined by lines, and where the readings stand.
struct ProfileFit {
    double correlation = 0.0;
    double contrast = 0.0;  ///< largest over smallest mean square
    std::size_t phase = 0;
};

ProfileFit fit_of(const std::vector<double>& profile, double floor) {
    const std::size_t period = profile.size();
    // A bend at distance d from the middle of the difference counts with (1 - d / half)^2.
    std::vector<double> shape(period, 0.0);
    const std::size_t half_samples = period / 2;
    const double half = static_cast<double>(half_samples);
    for (std::size_t k = 0; k < period; ++k) {
        const double distance = static_cast<double>(std::min(k, period - k));
        shape[k] = distance < half ? (1.0 - distance / half) * (1.0 - distance / half) : 0.0;
    }
    const auto centred_norm = [](std::vector<double>& values) {
        const double mean = std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
        double squares = 0.0;
        for (double& value : values) {
            value -= mean;
            squares += value * value;
        }
        return std::sqrt(squares);
    };
    ProfileFit fit;
    const auto [least, most] = std::ranges::minmax(profile);
    fit.contrast = (most + floor) / (least + floor);
    std::vector<double> centred = profile;
    const double norm = centred_norm(shape) * centred_norm(centred);
    for (std::size_t phase = 0; phase < period && norm > 0.0; ++phase) {
        double product = 0.0;
        for (std::size_t k = 0; k < period; ++k) {
            product += shape[k] * centred[(k + phase) % period];
        }
        if (product / norm > fit.correlation) {
            fit.correlation = product / norm;
            fit.phase = phase;
        }
    }
    return fit;
}

/// Whether two fits speak for readings at one phase.
bool agree(const ProfileFit& a, const ProfileFit& b, std::size_t period) {
    const std::size_t apart = a.phase > b.phase ? a.phase - b.phase : b.phase - a.phase;
    const double contrast = std::min(a.contrast, b.contrast);
    if (period < 8) {
        // Over so few phases anything correlates, so the contrast has to tell.
        return apart == 0 && contrast >= 4.0 && std::min(a.correlation, b.correlation) >= 0.9;
    }
    return std::min(apart, period - apart) <= period / 16 && contrast >= 1.4 && a.contrast * b.contrast >= 2.5 &&
           std::min(a.correlation, b.correlation) >= 0.8;
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
    return select_rank(bends, bends.size() / 2).at <= 2.5 * resolution;
}

std::optional<RepeatedReadings> find_interpolated(std::span<const double> samples, double resolution, Hertz rate) {
    constexpr std::array<std::size_t, 20> periods{100, 80, 64, 60, 50, 40, 32, 30, 25, 24,
                                                  20,  16, 15, 12, 10, 8,  6,  5,  4,  2};
    constexpr std::size_t fewest_per_phase = 100;
    constexpr double slowest_hz = 10.0;  // no sensor of joint angles is slower
    const std::span<const double> part = most_moving_part(samples);
    if (!is_smooth(part.subspan(part.size() / 2), resolution)) {
        return std::nullopt;
    }
    const auto offset = static_cast<std::size_t>(part.data() - samples.data());
    // Below this, rounding alone could make a contrast where nothing moves.
    const double floor = 0.01 * resolution * resolution;
    const std::size_t half = part.size() / 2;
    for (const std::size_t period : periods) {
        const bool is_too_slow = rate.value() / static_cast<double>(period) < slowest_hz;
        if (is_too_slow || part.size() < fewest_per_phase * period) {
            continue;
        }
        // Both halves have to agree, so that one spike or one jerk is no evidence.
        const double most = usual_bend(part, period / 2);
        const ProfileFit early = fit_of(profile_of(part.first(half), offset, period, most), floor);
        const ProfileFit late = fit_of(profile_of(part.subspan(half), offset + half, period, most), floor);
        if (agree(early, late, period)) {
            return RepeatedReadings{.kind = RepeatedReadings::Kind::interpolated,
                                    .true_rate = Hertz(rate.value() / static_cast<double>(period)),
                                    .every = period,
                                    .first = (early.contrast > late.contrast ? early : late).phase};
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<RepeatedReadings> find_repeated_readings(std::span<const double> samples, const Scale& scale) {
    if (!(scale.resolution > 0.0)) {
        return std::nullopt;
    }
    const Hertz rate(scale.rate_hz);
    // Noise of about the resolution makes up to a third of all neighbours equal.
    const bool may_be_held = 20 * scale.repeats >= 9 * samples.size();
    const auto held = may_be_held ? find_held(samples, scale.resolution, rate) : std::nullopt;
    return held ? held : find_interpolated(samples, scale.resolution, rate);
}

std::optional<RepeatedReadings> find_repeated_readings(std::span<const double> samples, Hertz rate) {
    return find_repeated_readings(samples, scale_of(samples, rate.value()));
}

}  // namespace jointrom
