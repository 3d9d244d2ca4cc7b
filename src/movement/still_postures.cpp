#include <jointrom/movement/still_postures.hpp>

#include <jointrom/angle/posture.hpp>
#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/movement/movement_scale.hpp>

#include <algorithm>
#include <cmath>
#include <deque>

namespace jointrom {
namespace {

constexpr double noise_factor = 3.0;
constexpr double noise_spread = 10.0;
constexpr double twitch_s = 0.1;  // above the speed limit for less than this is a twitch or noise

std::vector<SampleSpan> slow_stretches(const AngleTrace& trace, SampleSpan piece, double max_speed_deg_s) {
    const double twitch_samples = twitch_s * trace.rate().value();
    std::vector<SampleSpan> stretches;
    for (std::size_t i = piece.first; i < piece.last; ++i) {
        if (std::abs(trace.velocity_deg_s()[i]) > max_speed_deg_s) {
            continue;
        }
        if (!stretches.empty() && static_cast<double>(i - stretches.back().last) < twitch_samples) {
            stretches.back().last = i + 1;
        } else {
            stretches.push_back({i, i + 1});
        }
    }
    return stretches;
}

/// The longest part of `stretch` whose samples span no more than `band`; the first of several.
SampleSpan longest_within(std::span<const double> angle, SampleSpan stretch, double band) {
    std::deque<std::size_t> rising, falling;  // candidates for the smallest and the largest sample of the window
    SampleSpan longest{stretch.first, stretch.first};
    std::size_t first = stretch.first;
    for (std::size_t i = stretch.first; i < stretch.last; ++i) {
        while (!rising.empty() && angle[rising.back()] >= angle[i]) {
            rising.pop_back();
        }
        while (!falling.empty() && angle[falling.back()] <= angle[i]) {
            falling.pop_back();
        }
        rising.push_back(i);
        falling.push_back(i);
        while (angle[falling.front()] - angle[rising.front()] > band) {
            ++first;
            if (rising.front() < first) {
                rising.pop_front();
            }
            if (falling.front() < first) {
                falling.pop_front();
            }
        }
        if (i + 1 - first > longest.size()) {
            longest = {first, i + 1};
        }
    }
    return longest;
}

StillPosture posture_of(const AngleTrace& trace, const HeldLevel& level, double drift_deg_s) {
    StillPosture posture{.span = level.span,
                         .start = trace.time(level.span.first),
                         .end = trace.time(level.span.last),
                         .mean = Degrees(level.mean),
                         .sd = Degrees(level.sd),
                         .drift = DegreesPerSecond(drift_deg_s),
                         .budget = angle_budget(trace, Degrees(level.mean), MomentaryNoise::left_out)};
    const double noise_u = level.sd / std::sqrt(level.effective_count);
    posture.budget.add({.input = "noise and sway while held",
                        .u = noise_u,
                        .degrees_of_freedom = std::max(1.0, level.effective_count - 2.0)});
    // A mean and the drift along a line through independent samples, over sqrt(12), have the same noise.
    const double drift_u = rectangular_u(level.drift / 2.0);
    if (std::abs(drift_u) > 2.0 * noise_u) {
        posture.budget.add({.input = "drift while held", .u = std::sqrt(drift_u * drift_u - noise_u * noise_u)});
    }
    return posture;
}

}  // namespace

std::vector<StillPosture> still_postures(const AngleTrace& trace, const StillPostureOptions& options) {
    const TraceNoise noise = trace_noise(trace);
    const double max_speed = std::max(options.max_speed.value(), noise_factor * noise.velocity_deg_s);
    const double band = std::max(2.0 * options.tolerance.value(), noise_spread * noise.angle_deg);
    const double min_samples = std::max(2.0, options.min_duration.value() * trace.rate().value() - 1e-9);
    std::vector<StillPosture> postures;
    std::vector<SampleSpan> open;
    for (const SampleSpan piece : trace.pieces()) {
        const auto stretches = slow_stretches(trace, piece, max_speed);
        open.insert(open.end(), stretches.begin(), stretches.end());
    }
    while (!open.empty()) {
        const SampleSpan stretch = open.back();
        open.pop_back();
        const SampleSpan span = longest_within(trace.angle_deg(), stretch, band);
        if (static_cast<double>(span.size()) < min_samples) {
            continue;
        }
        const HeldLevel level = held_level(trace.angle_deg(), span);
        const double drift_deg_s = level.drift / (static_cast<double>(span.size() - 1) / trace.rate().value());
        if (std::abs(level.drift) <= options.tolerance.value() || std::abs(drift_deg_s) <= options.max_drift.value()) {
            postures.push_back(posture_of(trace, level, drift_deg_s));
        }
        open.push_back({stretch.first, span.first});
        open.push_back({span.last, stretch.last});
    }
    std::ranges::sort(postures, {}, [](const StillPosture& posture) { return posture.span.first; });
    return postures;
}

}  // namespace jointrom
