#include <jointrom/figure/class_figure.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/figure/panel.hpp>
#include <jointrom/figure/svg_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t most_groups = 30;
constexpr std::size_t most_tooltips = 2000;  ///< names of more points would outweigh the figure

std::vector<double> numbers_of(const ClassGroup& group) {
    std::vector<double> numbers;
    for (const ClassLane& lane : group.lanes) {
        for (const NamedValue& value : lane.values) {
            numbers.push_back(value.value);
        }
    }
    return numbers;
}

std::optional<Interval> extent(const ClassDots& dots) {
    std::optional<Interval> all;
    for (const ClassGroup& group : dots.groups) {
        all = joined(all, extent_of(numbers_of(group)));
        for (const ClassLane& lane : group.lanes) {
            all = joined(all, extent_of(std::array{lane.lower, lane.upper}));
        }
    }
    return all;
}

bool has_range(const ClassLane& lane) {
    return std::isfinite(lane.lower) && std::isfinite(lane.upper);
}

bool is_outside(const ClassLane& lane, double value) {
    return value < lane.lower || value > lane.upper;
}

std::size_t outside_count(const ClassGroup& group) {
    std::size_t count = 0;
    for (const ClassLane& lane : group.lanes) {
        count += static_cast<std::size_t>(
            std::ranges::count_if(lane.values, [&](const NamedValue& value) { return is_outside(lane, value.value); }));
    }
    return count;
}

std::string description(const ClassDots& dots) {
    std::string text;
    for (const ClassGroup& group : dots.groups) {
        const std::vector<double> numbers = numbers_of(group);
        if (const auto values = extent_of(numbers)) {
            const std::string name = group.name.empty() ? "All" : group.name;
            text += numbers.size() == 1 ? fmt::format(" {}: 1 value, {}", name, fixed_text(values->low, 1))
                                        : fmt::format(" {}: {} values from {} to {}, mean {}", name, numbers.size(),
                                                      fixed_text(values->low, 1), fixed_text(values->high, 1),
                                                      fixed_text(group.mean, 1));
            text += std::ranges::any_of(group.lanes, has_range)
                        ? fmt::format(", {} outside the normal range.", outside_count(group))
                        : std::string(".");
        }
    }
    return dots.quantity + "." + (text.empty() ? " There are no values to draw." : text);
}

/// How far each of the sorted values has to move from the middle of its lane so that dots do not cover each other:
/// 0, 1, -1, 2, ... steps.
std::vector<int> dodged(const std::vector<double>& x_px, double step_px, int most_steps) {
    std::vector<int> moved;
    std::vector<double> last_x(static_cast<std::size_t>(2 * most_steps + 1), -1e9);
    for (const double x : x_px) {
        int best = 0;
        for (int k = 0; k <= 2 * most_steps; ++k) {
            const int at = (k % 2 == 1 ? 1 : -1) * ((k + 1) / 2);
            if (x - last_x[static_cast<std::size_t>(at + most_steps)] >= step_px) {
                best = at;
                break;
            }
        }
        last_x[static_cast<std::size_t>(best + most_steps)] = x;
        moved.push_back(best);
    }
    return moved;
}

constexpr double lane_px = 30.0;
constexpr double mean_px = 16.0;  ///< height of the strip for the mean

double wanted_px(const ClassGroup& group) {
    return mean_px + lane_px * static_cast<double>(std::max<std::size_t>(group.lanes.size(), 1));
}

std::size_t wanted_height(std::span<const ClassGroup> groups) {
    double height = 150.0;
    for (const ClassGroup& group : groups) {
        height += 32.0 + wanted_px(group);
    }
    return static_cast<std::size_t>(height);
}

class ClassFigure {
  public:
    ClassFigure(const ClassDots& dots, const FigureStyle& style)
        : dots_(dots), groups_(std::span(dots.groups).first(std::min(dots.groups.size(), most_groups))),
          drawing_(style, {dots.title, description(dots)}, 640, wanted_height(groups_)) {
        write_legend();
        if (groups_.size() < dots.groups.size()) {
            drawing_.note(fmt::format("The first {} of {} groups.", groups_.size(), dots.groups.size()));
        }
        drawing_.note(dots.note);
    }

    std::string svg() {
        const Axis x{.label = dots_.quantity,
                     .range = shown_interval(),
                     .steps = dots_.quantity.ends_with("(deg)") ? TickSteps::degrees : TickSteps::decimal};
        std::vector<PanelRow> rows;
        for (const ClassGroup& group : groups_) {
            const std::string name = group.name.empty() ? "all" : group.name;
            rows.push_back({.y = {.label = fmt::format("{} (n = {})", name, numbers_of(group).size()),
                                  .range = {0.0, 1.0},
                                  .has_ticks = false},
                            .share = wanted_px(group)});
        }
        if (rows.empty()) {
            rows.push_back({.y = {.label = {}, .range = {0.0, 1.0}, .has_ticks = false}});
        }
        std::vector<Panel> panels = stacked_panels(drawing_, x, rows);
        for (std::size_t i = 0; i < groups_.size(); ++i) {
            draw_group(panels[i], groups_[i]);
        }
        if (groups_.empty()) {
            panels.front().say("no values");
        }
        return drawing_.svg();
    }

  private:
    /// With room for the names of lanes left of the data.
    [[nodiscard]] Interval shown_interval() const {
        double names_px = 0.0;
        for (const ClassGroup& group : groups_) {
            for (const ClassLane& lane : group.lanes) {
                names_px = std::max(names_px, text_width_px(lane.text, drawing_.small_px()));
            }
        }
        const Interval data = axis_interval(extent(dots_), {0.04, 0.04, 1.0});
        const double width_px = drawing_.body().width - 3.0 * drawing_.small_px();
        const double share = std::min(names_px / width_px, 0.4);
        return {data.low - data.span() * share / (1.0 - share), data.high};
    }

    void write_legend() {
        std::vector<LegendEntry> entries{
            {LegendEntry::Kind::marker, "mark mark1", "a participant's mean"},
            {LegendEntry::Kind::marker, "ink-mark", "mean of the group, with its 95 % interval", Marker::cross}};
        const auto has_ranges = [](const ClassGroup& group) { return std::ranges::any_of(group.lanes, has_range); };
        if (std::ranges::any_of(groups_, has_ranges)) {
            entries.push_back({LegendEntry::Kind::band, "band band3", "normal range"});
            entries.push_back({LegendEntry::Kind::marker, "mark mark2", "outside", Marker::diamond});
        }
        drawing_.legend(entries);
    }

    void draw_group(Panel& panel, const ClassGroup& group) {
        const double scale = panel.plot().height / wanted_px(group);
        const double height =
            (panel.plot().height - mean_px * scale) / static_cast<double>(std::max<std::size_t>(group.lanes.size(), 1));
        for (std::size_t i = 0; i < group.lanes.size(); ++i) {
            const double top = panel.plot().top + static_cast<double>(i) * height;
            draw_range(panel, group.lanes[i], top, height);
            draw_dots(panel, group.lanes[i], top + 0.5 * height, height);
        }
        draw_mean(panel, group, 0.5 * mean_px * scale / panel.plot().height);
    }

    void draw_range(const Panel& panel, const ClassLane& lane, double top, double height) {
        if (has_range(lane)) {
            const double left = std::max(panel.x_px(lane.lower), panel.plot().left);
            const double right = std::min(panel.x_px(lane.upper), panel.plot().right());
            drawing_.rectangle({left, top + 1.0, right - left, height - 2.0}, "band band3");
            drawing_.segment(left, top + 1.0, left, top + height - 1.0, "line line3");
            drawing_.segment(right, top + 1.0, right, top + height - 1.0, "line line3");
        }
        if (!lane.text.empty()) {
            drawing_.text(panel.plot().left + 2.0, top + 0.5 * height + 0.35 * drawing_.small_px(),
                          shortened(lane.text, 0.4 * panel.plot().width, drawing_.small_px()), "small soft");
        }
    }

    void draw_dots(Panel& panel, const ClassLane& lane, double middle_px, double height) {
        std::vector<NamedValue> values = lane.values;
        std::erase_if(values, [](const NamedValue& value) { return !std::isfinite(value.value); });
        std::ranges::stable_sort(values, {}, &NamedValue::value);
        std::vector<double> x_px;
        for (const NamedValue& value : values) {
            x_px.push_back(panel.x_px(value.value));
        }
        const double radius_px = values.size() > 60 ? 2.5 : 4.0;
        const int most_steps = std::max(0, static_cast<int>((0.5 * height - radius_px) / (2.0 * radius_px)));
        const std::vector<int> moved = dodged(x_px, 2.0 * radius_px, most_steps);
        const auto y_of = [&](std::size_t i) {
            return (panel.plot().bottom() - middle_px - moved[i] * 2.0 * radius_px) / panel.plot().height;
        };
        for (std::size_t i = 0; i < values.size(); ++i) {
            const bool outside = is_outside(lane, values[i].value);
            const std::string tip = fmt::format("{} {}", values[i].name, fixed_text(values[i].value, 1));
            panel.mark(values[i].value, y_of(i), outside ? Marker::diamond : Marker::circle,
                       outside ? "mark mark2" : "mark mark1", values.size() <= most_tooltips ? tip : std::string(),
                       radius_px);
        }
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (is_outside(lane, values[i].value)) {
                panel.label(values[i].value, y_of(i), values[i].name, Panel::Place::right) ||
                    panel.label(values[i].value, y_of(i), values[i].name, Panel::Place::left);
            }
        }
    }

    static void draw_mean(Panel& panel, const ClassGroup& group, double y) {
        if (std::isfinite(group.mean_ci.low) && std::isfinite(group.mean_ci.high)) {
            const auto inside = [&](double value) {
                return std::clamp(value, panel.x_range().low, panel.x_range().high);
            };
            panel.segment(inside(group.mean_ci.low), y, inside(group.mean_ci.high), y, "line ink");
        }
        panel.mark(group.mean, y, Marker::cross, "ink-mark");
    }

    const ClassDots& dots_;
    std::span<const ClassGroup> groups_;
    Drawing drawing_;
};

}  // namespace

std::string class_figure(const ClassDots& dots, const FigureStyle& style) {
    return ClassFigure(dots, style).svg();
}

}  // namespace jointrom
