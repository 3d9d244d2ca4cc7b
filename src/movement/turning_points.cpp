#include <jointrom/movement/turning_points.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/movement/movement_scale.hpp>

#include "zigzag.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double plateau_share = 0.02;
constexpr double plateau_noise_factor = 3.0;

double least_prominence(const TurningPointOptions& options, const MovementScale& scale) {
    if (options.prominence.is_set()) {
        return options.prominence.value();
    }
    return std::max(options.prominence_share * scale.robust_arc_deg, scale.least_arc_deg());
}

/// The samples around `sample` that lie within `tolerance` of it.
SampleSpan neighbourhood(std::span<const double> samples, std::size_t sample, double tolerance) {
    const auto is_near = [&](std::size_t i) { return std::abs(samples[i] - samples[sample]) <= tolerance; };
    SampleSpan span{sample, sample + 1};
    while (span.first > 0 && is_near(span.first - 1)) {
        --span.first;
    }
    while (span.last < samples.size() && is_near(span.last)) {
        ++span.last;
    }
    return span;
}

void leave_out_glitches(std::span<const double> samples, std::vector<ZigzagPoint>& points, double threshold,
                        double min_samples) {
    const auto height = [&](const ZigzagPoint& point) {
        return point.is_maximum ? samples[point.sample] : -samples[point.sample];
    };
    std::vector<ZigzagPoint> kept;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const bool inside = !kept.empty() && i + 1 < points.size();
        const SampleSpan near = neighbourhood(samples, points[i].sample, std::nextafter(threshold, 0.0));
        if (!inside || static_cast<double>(near.size()) >= min_samples) {
            kept.push_back(points[i]);
            continue;
        }
        ++i;  // points[i] and kept.back() now are of one kind: the more extreme stays
        if (height(points[i]) > height(kept.back())) {
            kept.back() = points[i];
        }
    }
    points = std::move(kept);
}

}  // namespace

std::vector<TurningPoint> turning_points(const AngleTrace& trace, const TurningPointOptions& options) {
    const MovementScale scale = movement_scale(trace);
    const double threshold = least_prominence(options, scale);
    if (!(threshold > 0.0)) {
        throw Failure(FailureKind::usage, "prominence-not-positive", "the least prominence must be above 0",
                      "Give --prominence-deg a positive number.");
    }
    const double tolerance =
        options.plateau_tolerance.is_set()
            ? options.plateau_tolerance.value()
            : std::max(plateau_share * scale.robust_arc_deg, plateau_noise_factor * scale.noise.angle_deg);
    std::vector<TurningPoint> result;
    for (const SampleSpan piece : trace.pieces()) {
        const auto samples = slice(trace.angle_deg(), piece);
        auto points = zigzag(samples, threshold);
        leave_out_glitches(samples, points, threshold, options.min_duration.value() * trace.rate().value());
        const auto heights = prominences(samples, points);
        for (std::size_t i = 0; i < points.size(); ++i) {
            const auto [sample, is_maximum] = points[i];
            const SampleSpan plateau = neighbourhood(samples, sample, tolerance);
            result.push_back({.kind = is_maximum ? TurningPointKind::maximum : TurningPointKind::minimum,
                              .sample = piece.first + sample,
                              .time = trace.time(piece.first + sample),
                              .angle = Degrees(samples[sample]),
                              .prominence = Degrees(heights[i]),
                              .plateau = {piece.first + plateau.first, piece.first + plateau.last},
                              .at_edge = i == 0 || i + 1 == points.size()});
        }
    }
    return result;
}

Degrees robust_arc(const AngleTrace& trace) {
    const RobustLevels levels = robust_levels(trace);
    return Degrees(levels.high_deg - levels.low_deg);
}

}  // namespace jointrom
