#include <jointrom/figure/sides_figure.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

bool is_whole(const SideValues& pair) {
    return std::isfinite(pair.left) && std::isfinite(pair.right);
}

std::string description(const SidePairs& sides) {
    const auto outside = std::ranges::count_if(sides.pairs, [&](const SideValues& pair) {
        return is_whole(pair) && std::abs(pair.left - pair.right) > sides.limit;
    });
    std::string text = fmt::format("{} of the right side against the left of {} participants.", sides.quantity,
                                   std::ranges::count_if(sides.pairs, is_whole));
    if (std::isfinite(sides.limit)) {
        text += fmt::format(" In {} of them the sides differ by more than {} {}.", outside, fixed_text(sides.limit, 1),
                            sides.unit);
    }
    return text;
}

Interval shown_interval(const SidePairs& sides) {
    std::vector<double> all;
    for (const SideValues& pair : sides.pairs) {
        if (is_whole(pair)) {
            all.insert(all.end(), {pair.left, pair.right});
        }
    }
    return axis_interval(extent_of(all), {0.08, 0.08, std::isfinite(sides.limit) ? 2.0 * sides.limit : 1.0});
}

/// The strip about the line of equal sides, within the panel.
void draw_limit(Panel& panel, Interval range, double limit) {
    std::vector<double> x{range.low, range.low + limit, range.high - limit, range.high};
    std::erase_if(x, [&](double at) { return !range.contains(at); });
    std::ranges::sort(x);
    std::vector<double> low;
    std::vector<double> high;
    for (const double at : x) {
        low.push_back(std::clamp(at - limit, range.low, range.high));
        high.push_back(std::clamp(at + limit, range.low, range.high));
    }
    panel.band(x, low, high, "band band3");
}

void draw_pairs(Panel& panel, const SidePairs& sides) {
    const auto is_far = [&](const SideValues& pair) { return std::abs(pair.left - pair.right) > sides.limit; };
    for (const SideValues& pair : sides.pairs) {
        if (is_whole(pair)) {
            panel.mark(pair.left, pair.right, is_far(pair) ? Marker::diamond : Marker::circle,
                       is_far(pair) ? "mark mark2" : "mark mark1",
                       fmt::format("{}: left {}, right {} {}", pair.name, fixed_text(pair.left, 1),
                                   fixed_text(pair.right, 1), sides.unit));
        }
    }
    for (const SideValues& pair : sides.pairs) {
        if (is_whole(pair) && is_far(pair)) {
            panel.label(pair.left, pair.right, pair.name, Panel::Place::right) ||
                panel.label(pair.left, pair.right, pair.name, Panel::Place::left) ||
                panel.label(pair.left, pair.right, pair.name, Panel::Place::above) ||
                panel.label(pair.left, pair.right, pair.name, Panel::Place::below);
        }
    }
}

}  // namespace

std::string sides_figure(const SidePairs& sides, const FigureStyle& style) {
    Drawing drawing(style, {sides.title, description(sides)}, 560, 580);
    std::vector<LegendEntry> entries{{LegendEntry::Kind::marker, "mark mark1", "a participant"},
                                     {LegendEntry::Kind::line, "line ink", "equal sides"}};
    if (std::isfinite(sides.limit)) {
        entries.push_back({LegendEntry::Kind::band, "band band3",
                           fmt::format("within {} {}", fixed_text(sides.limit, 1), sides.unit)});
        entries.push_back({LegendEntry::Kind::marker, "mark mark2", "farther apart", Marker::diamond});
    }
    drawing.legend(entries);
    drawing.note(sides.note);
    const Interval range = shown_interval(sides);
    const TickSteps steps = sides.unit == "deg" ? TickSteps::degrees : TickSteps::decimal;
    const Axis x{.label = fmt::format("Left: {} ({})", sides.quantity, sides.unit), .range = range, .steps = steps};
    const std::vector<PanelRow> rows{
        {.y = {.label = fmt::format("Right: {} ({})", sides.quantity, sides.unit), .range = range, .steps = steps}}};
    Panel panel = stacked_panels(drawing, x, rows).front();
    if (std::isfinite(sides.limit)) {
        draw_limit(panel, range, sides.limit);
    }
    panel.segment(range.low, range.low, range.high, range.high, "line ink");
    if (std::ranges::none_of(sides.pairs, is_whole)) {
        panel.say("nobody has both sides");
    }
    draw_pairs(panel, sides);
    return drawing.svg();
}

}  // namespace jointrom
