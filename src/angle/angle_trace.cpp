#include "angle_trace_builder.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/signal/derivative.hpp>
#include <jointrom/signal/finite_runs.hpp>

#include <algorithm>
#include <cassert>
#include <limits>
#include <utility>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr std::size_t shortest_piece = 3;  // what a second derivative needs

std::vector<SampleSpan> pieces_of(std::span<const double> samples) {
    std::vector<SampleSpan> pieces = finite_runs(samples);
    std::erase_if(pieces, [](SampleSpan piece) { return piece.size() < shortest_piece; });
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
    trace.velocity_deg_s_ = first_derivative(parts.angle_deg, parts.rate, EndDifference::second_order);
    trace.acceleration_deg_s2_ = second_derivative(parts.angle_deg, parts.rate);
    trace.rate_ = parts.rate;
    trace.start_ = parts.start;
    trace.angle_deg_ = std::move(parts.angle_deg);
    trace.unfiltered_deg_ = std::move(parts.unfiltered_deg);
    trace.motion_ = std::move(parts.motion);
    trace.side_ = parts.side;
    trace.reading_sign_ = parts.reading_sign;
    trace.uncertainty_ = parts.uncertainty;
    trace.lowpass_ = parts.lowpass;
    trace.steps_ = std::move(parts.steps);
    return trace;
}

AngleTrace trace_from_angles(std::vector<double> angle_deg, Hertz rate, Seconds start, const JointMotion& motion,
                             Side side, const TraceUncertainty& uncertainty) {
    return AngleTraceBuilder::build({.angle_deg = std::move(angle_deg),
                                     .rate = rate,
                                     .start = start,
                                     .motion = motion,
                                     .side = side,
                                     .uncertainty = uncertainty,
                                     .steps = {"angles taken as anatomical"}});
}

}  // namespace jointrom
