#include <jointrom/figure/angle_velocity_figure.hpp>

#include "figure/time_axis.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>
#include <jointrom/signal/resample.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {
namespace {

constexpr std::size_t most_loops = 12;
constexpr std::size_t loop_points = 101;

/// Mean over the repetitions at each percent of their duration. A repetition with a gap makes a point missing.
std::vector<double> mean_curve(std::span<const double> samples, std::span<const Repetition> repetitions) {
    std::vector<double> mean(loop_points, 0.0);
    for (const Repetition& repetition : repetitions) {
        const std::vector<double> curve = time_normalise(slice(samples, repetition.span), loop_points);
        for (std::size_t i = 0; i < loop_points; ++i) {
            mean[i] += curve[i] / static_cast<double>(repetitions.size());
        }
    }
    return mean;
}

/// As many as can be told apart, evenly chosen.
std::vector<SampleSpan> shown_loops(const AngleTrace& trace, std::span<const Repetition> repetitions) {
    std::vector<SampleSpan> spans;
    const std::size_t shown = std::min(repetitions.size(), most_loops);
    for (std::size_t k = 0; k < shown; ++k) {
        spans.push_back(repetitions[k * repetitions.size() / shown].span);
    }
    if (spans.empty()) {
        spans.push_back({0, trace.size()});
    }
    return spans;
}

std::string description(const AngleTrace& trace, std::span<const Repetition> repetitions) {
    const auto angle = extent_of(trace.angle_deg());
    const auto velocity = extent_of(trace.velocity_deg_s());
    if (!angle || !velocity) {
        return "There is nothing to draw.";
    }
    return fmt::format("Angular velocity ({} to {} deg/s) against angle ({} to {} deg) of {} repetitions.",
                       fixed_text(velocity->low, 0), fixed_text(velocity->high, 0), fixed_text(angle->low, 0),
                       fixed_text(angle->high, 0), repetitions.size());
}

std::string shown_words(std::size_t shown, std::size_t all) {
    if (all == 0) {
        return "the whole recording: no repetitions";
    }
    return shown < all ? fmt::format("{} of {} repetitions", shown, all) : "each repetition";
}

void draw_mean(Panel& panel, const AngleTrace& trace, std::span<const Repetition> repetitions) {
    const std::vector<double> angle = mean_curve(trace.angle_deg(), repetitions);
    const std::vector<double> velocity = mean_curve(trace.velocity_deg_s(), repetitions);
    panel.line(angle, velocity, "line line1");
    panel.mark(angle.front(), velocity.front(), Marker::circle, "mark mark1", "start", 5.0);
}

}  // namespace

std::string angle_velocity_figure(const AngleTrace& trace, std::span<const Repetition> repetitions,
                                  const FigureStyle& style) {
    Drawing drawing(style, {trace_name(trace) + ": velocity against angle", description(trace, repetitions)}, 640, 520);
    const std::vector<SampleSpan> loops = shown_loops(trace, repetitions);
    std::vector<LegendEntry> entries{
        {LegendEntry::Kind::line, "line thin line2", shown_words(loops.size(), repetitions.size())}};
    if (!repetitions.empty()) {
        entries.push_back({LegendEntry::Kind::line, "line line1", repetitions.size() > 1 ? "mean" : "the repetition"});
        entries.push_back({LegendEntry::Kind::marker, "mark mark1", "start"});
    }
    drawing.legend(entries);
    drawing.note("Upper half: toward " + trace.motion().positive + ". Lower half: toward " + trace.motion().negative +
                 ". A loop runs clockwise.");
    const Axis x{.label = motion_label(trace, "angle", "deg"),
                 .range = axis_interval(extent_of(trace.angle_deg()), {0.04, 0.04, 10.0}),
                 .steps = TickSteps::degrees};
    const auto extent = joined(extent_of(trace.velocity_deg_s()), Interval{0.0, 0.0});
    const std::vector<PanelRow> rows{
        {.y = {.label = "Angular velocity (deg/s)", .range = axis_interval(extent, {0.06, 0.06, 20.0})}}};
    Panel panel = stacked_panels(drawing, x, rows).front();
    panel.y_rule(0.0, "zero");
    panel.x_rule(0.0, "zero");
    for (const SampleSpan loop : loops) {
        panel.curve(slice(trace.angle_deg(), loop), slice(trace.velocity_deg_s(), loop), "line thin line2");
    }
    if (!repetitions.empty()) {
        draw_mean(panel, trace, repetitions);
    }
    return drawing.svg();
}

}  // namespace jointrom
