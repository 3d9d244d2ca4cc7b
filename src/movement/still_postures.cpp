#include <jointrom/movement/still_postures.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/movement/angle_uncertainty.hpp>

#include "movement_scale.hpp"

#include <algorithm>
#include <cmath>
#include <deque>
#include <numeric>

namespace jointrom {
namespace {

constexpr double noise_factor = 3.0;
constexpr double noise_spread = 10.0;
constexpr double twitch_s = 0.1;      // above the speed limit for less than this is a twitch or noise
constexpr double block_rate_hz = 50;  // joints held still move more slowly than this; fewer blocks, same mean

double mean_of(std::span<const double> samples) {
    return std::accumulate(samples.begin(), samples.end(), 0.0) / static_cast<double>(samples.size());
}

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

struct Line {
    double mean;
    double slope_per_sample;
};

Line fitted_line(std::span<const double> samples) {
    const double mean = mean_of(samples);
    const double middle = static_cast<double>(samples.size() - 1) / 2.0;
    double along = 0.0;
    double across = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double t = static_cast<double>(i) - middle;
        along += t * t;
        across += t * (samples[i] - mean);
    }
    return {mean, along > 0.0 ? across / along : 0.0};
}

/// Residuals about `line`, averaged over blocks short against any sway, so that the work does not grow with the rate.
std::vector<double> block_residuals(std::span<const double> samples, const Line& line, double rate_hz) {
    const auto block = static_cast<std::size_t>(std::max(1.0, std::floor(rate_hz / block_rate_hz)));
    const double middle = static_cast<double>(samples.size() - 1) / 2.0;
    std::vector<double> residuals;
    for (std::size_t first = 0; first + block <= samples.size(); first += block) {
        double sum = 0.0;
        for (std::size_t i = first; i < first + block; ++i) {
            sum += samples[i] - line.mean - line.slope_per_sample * (static_cast<double>(i) - middle);
        }
        residuals.push_back(sum / static_cast<double>(block));
    }
    return residuals;
}

BudgetLine noise_of_mean(std::span<const double> samples, const Line& line, double rate_hz) {
    const std::vector<double> r = block_residuals(samples, line, rate_hz);
    const double n = static_cast<double>(r.size());
    const double squares = std::inner_product(r.begin(), r.end(), r.begin(), 0.0);
    double correlation_sum = 0.0;
    for (std::size_t lag = 1; lag < r.size() && squares > 0.0; ++lag) {
        const auto from = r.begin() + static_cast<std::ptrdiff_t>(lag);
        const double correlation = std::inner_product(from, r.end(), r.begin(), 0.0) / squares;
        if (correlation <= 0.0) {
            break;
        }
        correlation_sum += correlation;
    }
    // Mean and slope take two degrees of freedom; with fewer than three independent samples one is left.
    const double independent = std::max(3.0, n / (1.0 + 2.0 * correlation_sum));
    const double variance = squares / n * independent / (independent - 2.0);
    return {.input = "noise and sway while held",
            .u = std::sqrt(variance / independent),
            .degrees_of_freedom = independent - 2.0};
}

StillPosture posture_of(const AngleTrace& trace, SampleSpan span, const Line& line) {
    const auto samples = slice(trace.angle_deg(), span);
    double squares = 0.0;
    for (const double x : samples) {
        squares += (x - line.mean) * (x - line.mean);
    }
    StillPosture posture{.span = span,
                         .start = trace.time(span.first),
                         .end = trace.time(span.last),
                         .mean = Degrees(line.mean),
                         .sd = Degrees(std::sqrt(squares / static_cast<double>(samples.size() - 1))),
                         .drift = DegreesPerSecond(line.slope_per_sample * trace.rate().value()),
                         .budget = angle_budget(trace, Degrees(line.mean))};
    posture.budget.add(noise_of_mean(samples, line, trace.rate().value()));
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
        const Line line = fitted_line(slice(trace.angle_deg(), span));
        const double drift_deg = std::abs(line.slope_per_sample) * static_cast<double>(span.size());
        const double drift_deg_s = std::abs(line.slope_per_sample) * trace.rate().value();
        if (drift_deg <= options.tolerance.value() || drift_deg_s <= options.max_drift.value()) {
            postures.push_back(posture_of(trace, span, line));
        }
        open.push_back({stretch.first, span.first});
        open.push_back({span.last, stretch.last});
    }
    std::ranges::sort(postures, {}, [](const StillPosture& posture) { return posture.span.first; });
    return postures;
}

}  // namespace jointrom
