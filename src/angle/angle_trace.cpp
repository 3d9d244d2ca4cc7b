#include "angle_trace_builder.hpp"

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <utility>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t shortest_piece = 3;  // what a second derivative needs

std::vector<SampleSpan> pieces_of(std::span<const double> samples) {
    std::vector<SampleSpan> pieces;
    for (std::size_t i = 0; i < samples.size();) {
        std::size_t end = i;
        while (end < samples.size() && std::isfinite(samples[end])) {
            ++end;
        }
        if (end - i >= shortest_piece) {
            pieces.push_back({i, end});
        }
        i = end + 1;
    }
    return pieces;
}

void clear_outside(std::span<const SampleSpan> pieces, std::vector<double>& samples) {
    std::size_t position = 0;
    for (const SampleSpan piece : pieces) {
        std::fill(samples.begin() + static_cast<std::ptrdiff_t>(position),
                  samples.begin() + static_cast<std::ptrdiff_t>(piece.first), missing);
        position = piece.last;
    }
    std::fill(samples.begin() + static_cast<std::ptrdiff_t>(position), samples.end(), missing);
}

/// Central differences; at the ends the parabola through the outermost three samples.
void differentiate(std::span<const double> x, double rate_hz, std::span<double> velocity,
                   std::span<double> acceleration) {
    const std::size_t last = x.size() - 1;
    for (std::size_t i = 1; i < last; ++i) {
        velocity[i] = (x[i + 1] - x[i - 1]) * (0.5 * rate_hz);
        acceleration[i] = (x[i + 1] - 2.0 * x[i] + x[i - 1]) * (rate_hz * rate_hz);
    }
    velocity[0] = (-3.0 * x[0] + 4.0 * x[1] - x[2]) * (0.5 * rate_hz);
    velocity[last] = (3.0 * x[last] - 4.0 * x[last - 1] + x[last - 2]) * (0.5 * rate_hz);
    acceleration[0] = acceleration[1];
    acceleration[last] = acceleration[last - 1];
}

}  // namespace

AngleTrace AngleTraceBuilder::build(AngleTraceParts parts) {
    assert(parts.rate.value() > 0.0);
    if (parts.unfiltered_deg.empty()) {
        parts.unfiltered_deg = parts.angle_deg;
    }
    assert(parts.unfiltered_deg.size() == parts.angle_deg.size());
    AngleTrace trace;
    trace.pieces_ = pieces_of(parts.angle_deg);
    if (trace.pieces_.empty()) {
        throw Failure(FailureKind::unreadable_data, "too-short",
                      "the angle has no stretch of " + std::to_string(shortest_piece) + " samples without a gap",
                      "Check the column and the missing-value marks, or record for longer.");
    }
    clear_outside(trace.pieces_, parts.angle_deg);
    clear_outside(trace.pieces_, parts.unfiltered_deg);
    trace.velocity_deg_s_.assign(parts.angle_deg.size(), missing);
    trace.acceleration_deg_s2_.assign(parts.angle_deg.size(), missing);
    for (const SampleSpan piece : trace.pieces_) {
        differentiate(slice(parts.angle_deg, piece), parts.rate.value(),
                      std::span(trace.velocity_deg_s_).subspan(piece.first, piece.size()),
                      std::span(trace.acceleration_deg_s2_).subspan(piece.first, piece.size()));
    }
    trace.rate_ = parts.rate;
    trace.start_ = parts.start;
    trace.angle_deg_ = std::move(parts.angle_deg);
    trace.unfiltered_deg_ = std::move(parts.unfiltered_deg);
    trace.motion_ = std::move(parts.motion);
    trace.side_ = parts.side;
    trace.uncertainty_ = parts.uncertainty;
    trace.lowpass_ = parts.lowpass;
    trace.steps_ = std::move(parts.steps);
    return trace;
}

AngleTrace trace_from_angles(std::vector<double> angle_deg, Hertz rate, Seconds start, const JointMotion& motion,
                             Side side, const TraceUncertainty& uncertainty) {
    return AngleTraceBuilder::build({.angle_deg = std::move(angle_deg),
                                     .unfiltered_deg = {},
                                     .rate = rate,
                                     .start = start,
                                     .motion = motion,
                                     .side = side,
                                     .uncertainty = uncertainty,
                                     .lowpass = {},
                                     .steps = {"angles taken as anatomical"}});
}

}  // namespace jointrom
