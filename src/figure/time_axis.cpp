#include "figure/time_axis.hpp"

#include <jointrom/figure/svg_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace jointrom {
namespace {

std::string capitalised(std::string text) {
    if (!text.empty()) {
        text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
    }
    return text;
}

/// Stretches of the phases of one kind, in pixels.
std::vector<Interval> pixel_spans(const Panel& panel, std::span<const Phase> phases, PhaseKind kind, TimeUnit unit) {
    std::vector<Interval> spans;
    for (const Phase& phase : phases) {
        if (phase.kind == kind) {
            spans.push_back({std::max(panel.x_px(unit.of(phase.start)), panel.plot().left),
                             std::min(panel.x_px(unit.of(phase.end)), panel.plot().right())});
        }
    }
    return spans;
}

constexpr double least_phase_px = 2.0;  ///< on average: narrower ones run into each other

}  // namespace

TimeUnit time_unit(const AngleTrace& trace) {
    const double length_s = static_cast<double>(trace.size()) / trace.rate().value();
    if (length_s > 4.0 * 3600.0) {
        return {3600.0, "h"};
    }
    return length_s > 600.0 ? TimeUnit{60.0, "min"} : TimeUnit{1.0, "s"};
}

Axis time_axis(const AngleTrace& trace, TimeUnit unit) {
    const Interval range{unit.of(trace.time(0)), unit.of(trace.time(std::max<std::size_t>(trace.size(), 1)))};
    return {.label = fmt::format("Time ({})", unit.name), .range = range};
}

std::string motion_label(const AngleTrace& trace, std::string_view quantity, std::string_view unit) {
    const JointMotion& motion = trace.motion();
    if (!motion.is_known()) {
        return capitalised(fmt::format("{} ({})", quantity, unit));
    }
    return fmt::format("{} {}, {} + / {} \u2212 ({})", capitalised(motion.joint), quantity, motion.positive,
                       motion.negative, unit);
}

std::string trace_name(const AngleTrace& trace) {
    const JointMotion& motion = trace.motion();
    const std::string name =
        motion.is_known() ? capitalised(fmt::format("{} {}", motion.joint, motion.motion)) : "Unknown joint";
    return trace.side() == Side::unknown ? name : fmt::format("{}, {}", name, name_of(trace.side()));
}

std::string signed_text(double value, int decimals) {
    return Ticks{.values = {}, .step = 1.0, .decimals = decimals}.text(value);
}

PanelRow phase_row(const Drawing& drawing) {
    return {.y = {.label = {}, .range = {0.0, 1.0}, .has_ticks = false}, .fixed_px = 0.8 * drawing.font_px()};
}

std::span<const Phase> visible_phases(double width_px, std::span<const Phase> phases) {
    const bool is_movement =
        std::ranges::any_of(phases, [](const Phase& phase) { return phase.kind != PhaseKind::rest; });
    const bool is_crowded = static_cast<double>(phases.size()) * least_phase_px > width_px;
    return is_movement && !is_crowded ? phases : std::span<const Phase>();
}

std::string counted(std::size_t count, std::string_view what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

std::string crowded_note(std::size_t hidden, std::string_view what) {
    return fmt::format("{} {} are too close to be drawn at this width; draw a part of the recording to see them.",
                       hidden, what);
}

void shade_phases(Panel& panel, std::span<const Phase> phases, TimeUnit unit) {
    for (const Phase& phase : phases) {
        if (phase.kind != PhaseKind::rest) {
            panel.x_span(unit.of(phase.start), unit.of(phase.end), name_of(phase.kind));
        }
    }
}

void draw_phase_strip(Drawing& drawing, Panel& panel, std::span<const Phase> phases, TimeUnit unit) {
    const double top = panel.plot().top;
    const double bottom = panel.plot().bottom();
    const auto draw = [&](PhaseKind kind, const char* classes, auto&& corners) {
        std::string d;
        for (const Interval span : pixel_spans(panel, phases, kind, unit)) {
            for (const auto& [x, y] : corners(span)) {
                d += fmt::format("{}{} {}", d.empty() || d.ends_with('Z') ? "M" : "L", pixel_text(x), pixel_text(y));
            }
            d += 'Z';
        }
        drawing.path(d, classes);
    };
    using Corner = std::pair<double, double>;
    draw(PhaseKind::raising, "mark1", [&](Interval at) {
        return std::array<Corner, 3>{Corner{at.low, bottom}, {at.high, top}, {at.high, bottom}};
    });
    draw(PhaseKind::holding, "mark0", [&](Interval at) {
        return std::array<Corner, 4>{Corner{at.low, top},
                                     {at.high, top},
                                     {at.high, top + 0.45 * (bottom - top)},
                                     {at.low, top + 0.45 * (bottom - top)}};
    });
    draw(PhaseKind::lowering, "mark2", [&](Interval at) {
        return std::array<Corner, 3>{Corner{at.low, top}, {at.high, bottom}, {at.low, bottom}};
    });
}

std::vector<LegendEntry> phase_legend(std::span<const Phase> phases, const JointMotion& motion) {
    struct Look {
        PhaseKind kind;
        Marker marker;
        const char* classes;
    };
    static constexpr std::array looks{Look{PhaseKind::raising, Marker::wedge_up, "mark1"},
                                      Look{PhaseKind::holding, Marker::bar, "mark0"},
                                      Look{PhaseKind::lowering, Marker::wedge_down, "mark2"}};
    std::vector<LegendEntry> entries;
    for (const Look& look : looks) {
        if (std::ranges::any_of(phases, [&](const Phase& phase) { return phase.kind == look.kind; })) {
            entries.push_back({LegendEntry::Kind::marker, look.classes, name_of(look.kind, motion), look.marker});
        }
    }
    return entries;
}

}  // namespace jointrom
