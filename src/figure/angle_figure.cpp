#include <jointrom/figure/angle_figure.hpp>

#include "figure/shown_muscle.hpp"
#include "figure/time_axis.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace jointrom {
namespace {

constexpr std::size_t width_px = 720;
constexpr double least_peak_px = 6.0;    ///< on average: closer ones hide the line
constexpr double least_span_deg = 10.0;  ///< so that the noise of a joint that never moves looks like noise

/// The mean of the angle while it was held.
double held_deg(const AngleTrace& trace, const Phase& phase) {
    double sum = 0.0;
    for (const double angle : slice(trace.angle_deg(), phase.span)) {
        sum += angle;
    }
    return sum / static_cast<double>(phase.span.size());
}

/// The turning points that are marked: those at an edge may be no turns, and where there are too many none is.
std::vector<TurningPoint> drawn_peaks(std::span<const TurningPoint> peaks, double body_px) {
    std::vector<TurningPoint> drawn;
    if (static_cast<double>(peaks.size()) * least_peak_px <= body_px) {
        std::ranges::copy_if(peaks, std::back_inserter(drawn), [](const TurningPoint& peak) { return !peak.at_edge; });
    }
    return drawn;
}

class AngleFigure {
  public:
    AngleFigure(const AngleTrace& trace, std::span<const Phase> phases, std::span<const TurningPoint> peaks,
                std::span<const MuscleActivity> muscles, const FigureStyle& style)
        : trace_(trace), phases_(visible_phases(Drawing::body_width_px(style, width_px), phases)),
          peaks_(drawn_peaks(peaks, Drawing::body_width_px(style, width_px))), shown_(shown_muscles(muscles)),
          unit_(time_unit(trace)), drawing_(style, {trace_name(trace) + ": angle over time", description()}, width_px,
                                            420 + 105 * shown_.size()) {
        std::vector<LegendEntry> entries = phase_legend(phases_, trace.motion());
        if (has_turn(TurningPointKind::maximum)) {
            entries.push_back({LegendEntry::Kind::marker, "mark mark3", "maximum", Marker::triangle_up});
        }
        if (has_turn(TurningPointKind::minimum)) {
            entries.push_back({LegendEntry::Kind::marker, "mark mark4", "minimum", Marker::triangle_down});
        }
        drawing_.legend(entries);
        drawing_.note(muscles_left_out(muscles));
        if (peaks_.empty() && std::ranges::any_of(peaks, [](const TurningPoint& peak) { return !peak.at_edge; })) {
            drawing_.note(crowded_note(peaks.size(), "turning points"));
        }
    }

    std::string svg() {
        for (const MuscleActivity& muscle : shown_) {
            envelopes_.push_back(shown_envelope(muscle));
        }
        std::vector<Panel> panels = stacked_panels(drawing_, time_axis(trace_, unit_), rows());
        draw_angle(panels.front());
        std::size_t next = 1;
        if (!phases_.empty()) {
            draw_phase_strip(drawing_, panels[next++], phases_, unit_);
        }
        for (std::size_t i = 0; i < shown_.size(); ++i) {
            draw_muscle(panels[next + i], i);
        }
        return drawing_.svg();
    }

  private:
    [[nodiscard]] bool has_turn(TurningPointKind kind) const {
        return std::ranges::find(peaks_, kind, &TurningPoint::kind) != peaks_.end();
    }

    [[nodiscard]] std::string description() const {
        const auto extent = extent_of(trace_.angle_deg());
        if (!extent) {
            return "There is no angle to draw.";
        }
        const auto holds = std::ranges::count(phases_, PhaseKind::holding, &Phase::kind);
        return fmt::format("From {} to {} s the angle lies between {} and {} deg. Marked: {} and {}; beneath: {}.",
                           fixed_text(trace_.time(0).value(), 1), fixed_text(trace_.time(trace_.size()).value(), 1),
                           fixed_text(extent->low, 0), fixed_text(extent->high, 0),
                           counted(peaks_.size(), "turning point"), counted(static_cast<std::size_t>(holds), "hold"),
                           counted(shown_.size(), "muscle"));
    }

    [[nodiscard]] std::vector<PanelRow> rows() const {
        const auto extent = joined(extent_of(trace_.angle_deg()), Interval{0.0, 0.0});
        std::vector<PanelRow> rows{{.y = {.label = motion_label(trace_, "angle", "deg"),
                                          .range = axis_interval(extent, {0.14, 0.16, least_span_deg}),
                                          .steps = TickSteps::degrees},
                                    .share = 3.0}};
        if (!phases_.empty()) {
            rows.push_back(
                {.y = {.label = {}, .range = {0.0, 1.0}, .has_ticks = false}, .fixed_px = 0.8 * drawing_.font_px()});
        }
        for (std::size_t i = 0; i < shown_.size(); ++i) {
            const auto envelope = joined(extent_of(envelopes_[i]), Interval{0.0, 0.0});
            rows.push_back({.y = {.label = fmt::format("{}, envelope ({})", shown_[i].signal.name, shown_[i].unit),
                                  .range = axis_interval(envelope, {0.0, 0.06, 0.0})}});
        }
        return rows;
    }

    void draw_angle(Panel& panel) {
        shade_phases(panel, phases_, unit_);
        panel.y_rule(0.0, "zero");
        panel.even_line(trace_.angle_deg(), unit_.of(trace_.time(0)), 1.0 / (trace_.rate().value() * unit_.seconds),
                        "line line1");
        for (const Phase& phase : phases_) {
            if (phase.kind == PhaseKind::holding) {
                const double held = held_deg(trace_, phase);
                panel.segment(unit_.of(phase.start), held, unit_.of(phase.end), held, "line ink");
            }
        }
        draw_peaks(panel);
        draw_hold_labels(panel);
    }

    void draw_peaks(Panel& panel) const {
        const double room_px = panel.plot().width / static_cast<double>(std::max<std::size_t>(peaks_.size(), 1));
        const double radius_px = std::clamp(0.35 * room_px, 2.0, 4.5);
        for (const TurningPoint& peak : peaks_) {
            const bool is_top = peak.kind == TurningPointKind::maximum;
            panel.mark(unit_.of(peak.time), peak.angle.value(), is_top ? Marker::triangle_up : Marker::triangle_down,
                       is_top ? "mark mark3" : "mark mark4", {}, radius_px);
        }
        for (const TurningPoint& peak : peaks_) {
            panel.label(unit_.of(peak.time), peak.angle.value(), signed_text(peak.angle.value(), 0),
                        peak.kind == TurningPointKind::maximum ? Panel::Place::above : Panel::Place::below);
        }
    }

    /// Holds far from a turning point's label; a hold at the top would say the same number twice.
    void draw_hold_labels(Panel& panel) const {
        for (const Phase& phase : phases_) {
            const bool has_peak =
                std::ranges::any_of(peaks_, [&](const TurningPoint& peak) { return phase.span.contains(peak.sample); });
            if (phase.kind == PhaseKind::holding && !has_peak) {
                const double held = held_deg(trace_, phase);
                panel.label(unit_.of(Seconds(0.5 * (phase.start.value() + phase.end.value()))), held,
                            signed_text(held, 0), Panel::Place::above, 5.0);
            }
        }
    }

    void draw_muscle(Panel& panel, std::size_t i) const {
        shade_phases(panel, phases_, unit_);
        const EmgSignal& signal = shown_[i].signal;
        const double start = unit_.of(signal.start);
        const double step = 1.0 / (signal.rate.value() * unit_.seconds);
        // Only what lies within the trace.
        const auto index_at = [&](Seconds time) {
            return static_cast<std::size_t>(std::clamp((time - signal.start).value() * signal.rate.value(), 0.0,
                                                       static_cast<double>(envelopes_[i].size())));
        };
        const std::size_t first = index_at(trace_.time(0));
        const std::size_t last = index_at(trace_.time(trace_.size()));
        const std::span<const double> shown = std::span(envelopes_[i]).subspan(first, last - first);
        const double shown_start = start + static_cast<double>(first) * step;
        panel.even_area(shown, shown_start, step, 0.0, "band band3");
        panel.even_line(shown, shown_start, step, "line line3");
    }

    const AngleTrace& trace_;
    std::span<const Phase> phases_;
    std::vector<TurningPoint> peaks_;
    std::span<const MuscleActivity> shown_;
    TimeUnit unit_;
    Drawing drawing_;
    std::vector<std::vector<double>> envelopes_;
};

}  // namespace

std::string angle_figure(const AngleTrace& trace, std::span<const Phase> phases, std::span<const TurningPoint> peaks,
                         std::span<const MuscleActivity> muscles, const FigureStyle& style) {
    return AngleFigure(trace, phases, peaks, muscles, style).svg();
}

}  // namespace jointrom
