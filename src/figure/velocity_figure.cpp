#include <jointrom/figure/velocity_figure.hpp>

#include "figure/time_axis.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t width_px = 720;
constexpr double least_span_deg_s = 20.0;

/// The sample at which a movement is fastest in its direction.
std::size_t fastest_sample(const AngleTrace& trace, const Phase& phase) {
    const double sign = phase.kind == PhaseKind::raising ? 1.0 : -1.0;
    std::size_t fastest = phase.span.first;
    for (std::size_t i = phase.span.first; i < phase.span.last; ++i) {
        if (sign * trace.velocity_deg_s()[i] > sign * trace.velocity_deg_s()[fastest]) {
            fastest = i;
        }
    }
    return fastest;
}

bool is_movement(const Phase& phase) {
    return phase.kind == PhaseKind::raising || phase.kind == PhaseKind::lowering;
}

void draw_peaks(Panel& panel, const AngleTrace& trace, std::span<const Phase> phases, TimeUnit unit) {
    const auto count = std::ranges::count_if(phases, is_movement);
    const double radius_px =
        std::clamp(0.35 * panel.plot().width / static_cast<double>(std::max<std::ptrdiff_t>(count, 1)), 2.0, 4.5);
    const auto for_each_peak = [&](auto&& use) {
        for (const Phase& phase : phases) {
            if (is_movement(phase)) {
                const std::size_t i = fastest_sample(trace, phase);
                use(unit.of(trace.time(i)), trace.velocity_deg_s()[i], phase.kind == PhaseKind::raising);
            }
        }
    };
    for_each_peak([&](double time, double velocity, bool is_up) {
        panel.mark(time, velocity, is_up ? Marker::triangle_up : Marker::triangle_down,
                   is_up ? "mark mark3" : "mark mark4", {}, radius_px);
    });
    for_each_peak([&](double time, double velocity, bool is_up) {
        panel.label(time, velocity, signed_text(velocity, 0), is_up ? Panel::Place::above : Panel::Place::below);
    });
}

std::string velocity_description(const AngleTrace& trace, std::span<const Phase> phases) {
    const auto extent = extent_of(trace.velocity_deg_s());
    if (!extent) {
        return "There is no velocity to draw.";
    }
    return fmt::format("From {} to {} s the angular velocity lies between {} and {} deg/s. The peaks of {} "
                       "are marked.",
                       fixed_text(trace.time(0).value(), 1), fixed_text(trace.time(trace.size()).value(), 1),
                       fixed_text(extent->low, 0), fixed_text(extent->high, 0),
                       counted(static_cast<std::size_t>(std::ranges::count_if(phases, is_movement)), "movement"));
}

}  // namespace

std::string velocity_figure(const AngleTrace& trace, std::span<const Phase> all_phases, const FigureStyle& style) {
    const TimeUnit unit = time_unit(trace);
    const std::span<const Phase> phases = visible_phases(Drawing::body_width_px(style, width_px), all_phases);
    Drawing drawing(style, {trace_name(trace) + ": angular velocity over time", velocity_description(trace, phases)},
                    width_px, 420);
    std::vector<LegendEntry> entries = phase_legend(phases, trace.motion());
    if (std::ranges::any_of(phases, is_movement)) {
        entries.push_back({LegendEntry::Kind::marker, "mark mark3", "peak", Marker::triangle_up});
        entries.push_back({LegendEntry::Kind::marker, "mark mark4", "peak the other way", Marker::triangle_down});
    }
    drawing.legend(entries);
    if (phases.empty() && std::ranges::any_of(all_phases, is_movement)) {
        drawing.note(crowded_note(all_phases.size(), "phases"));
    }
    const auto extent = joined(extent_of(trace.velocity_deg_s()), Interval{0.0, 0.0});
    std::vector<PanelRow> rows{{.y = {.label = motion_label(trace, "angular velocity", "deg/s"),
                                      .range = axis_interval(extent, {0.14, 0.16, least_span_deg_s})}}};
    if (!phases.empty()) {
        rows.push_back(phase_row(drawing));
    }
    std::vector<Panel> panels = stacked_panels(drawing, time_axis(trace, unit), rows);
    Panel& panel = panels.front();
    shade_phases(panel, phases, unit);
    panel.y_rule(0.0, "zero");
    panel.even_line(trace.velocity_deg_s(), unit.of(trace.time(0)), 1.0 / (trace.rate().value() * unit.seconds),
                    "line line1");
    draw_peaks(panel, trace, phases, unit);
    if (!phases.empty()) {
        draw_phase_strip(drawing, panels.back(), phases, unit);
    }
    return drawing.svg();
}

}  // namespace jointrom
