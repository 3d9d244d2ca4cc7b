#include <jointrom/figure/panel.hpp>

#include "figure/outline.hpp"

#include <jointrom/figure/decimation.hpp>
#include <jointrom/figure/svg_text.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double tick_px = 5.0;
constexpr double curve_tolerance_px = 0.5;

Ticks y_ticks(const Axis& y, double height_px, double font_px) {
    const auto room = static_cast<std::size_t>(std::clamp(height_px / (2.6 * font_px), 2.0, 8.0));
    for (std::size_t at_most = room;; ++at_most) {
        Ticks ticks = nice_ticks(y.range, at_most, y.steps);
        if (ticks.values.size() >= 2 || at_most > room + 3) {
            return ticks;
        }
    }
}

/// As many as there is room for their labels.
Ticks x_ticks(const Axis& x, double width_px, double font_px) {
    for (std::size_t at_most = 12; at_most > 2; --at_most) {
        Ticks ticks = nice_ticks(x.range, at_most, x.steps);
        double used = 0.0;
        for (const double value : ticks.values) {
            used += text_width_px(ticks.text(value), font_px) + 1.2 * font_px;
        }
        if (used <= width_px) {
            return ticks;
        }
    }
    return nice_ticks(x.range, 2, x.steps);
}

std::size_t columns_of(const Box& plot) {
    return static_cast<std::size_t>(std::max(1.0, plot.width));
}

}  // namespace

Panel::Panel(Drawing& drawing, const Box& plot, const Axis& x, const Axis& y, bool labels_x)
    : drawing_(drawing), plot_(plot), x_{x.range, plot.left, plot.right()}, y_{y.range, plot.bottom(), plot.top} {
    draw_axes(x, y, labels_x);
}

void Panel::draw_axes(const Axis& x, const Axis& y, bool labels_x) {
    const double font_px = drawing_.small_px();
    if (y.has_ticks) {
        drawing_.rectangle(plot_, "plot");
        const Ticks ticks = y_ticks(y, plot_.height, font_px);
        for (const double value : ticks.values) {
            drawing_.segment(plot_.left, y_(value), plot_.right(), y_(value), "grid");
            drawing_.text(plot_.left - 6.0, y_(value) + 0.35 * font_px, ticks.text(value), "small", Anchor::end);
        }
    }
    if (!y.label.empty()) {
        drawing_.text(drawing_.body().left, plot_.top - 0.75 * font_px,
                      shortened(y.label, drawing_.body().width, font_px), "small");
    }
    drawing_.segment(plot_.left, plot_.bottom(), plot_.right(), plot_.bottom(), "axis");
    if (!labels_x) {
        return;
    }
    const Ticks ticks = x_ticks(x, plot_.width, font_px);
    for (const double value : ticks.values) {
        drawing_.segment(x_(value), plot_.bottom(), x_(value), plot_.bottom() + tick_px, "axis");
        drawing_.text(x_(value), plot_.bottom() + tick_px + 1.05 * font_px, ticks.text(value), "small", Anchor::middle);
    }
    drawing_.text(plot_.left + 0.5 * plot_.width, plot_.bottom() + tick_px + 2.45 * font_px,
                  shortened(x.label, plot_.width + 2.0 * font_px, font_px), "small", Anchor::middle);
}

void Panel::line(std::span<const double> x, std::span<const double> y, std::string_view classes) {
    Outline outline;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (std::isfinite(x[i]) && std::isfinite(y[i])) {
            outline.add(x_(x[i]), y_(y[i]));
        } else {
            outline.start();
        }
    }
    drawing_.path(outline.text(), classes);
}

void Panel::curve(std::span<const double> x, std::span<const double> y, std::string_view classes) {
    std::vector<double> x_px(x.size());
    std::vector<double> y_px(y.size());
    std::ranges::transform(x, x_px.begin(), x_);
    std::ranges::transform(y, y_px.begin(), y_);
    Outline outline;
    for (const std::size_t i : drawn_points(x_px, y_px, curve_tolerance_px)) {
        if (std::isfinite(x_px[i]) && std::isfinite(y_px[i])) {
            outline.add(x_px[i], y_px[i]);
        } else {
            outline.start();
        }
    }
    drawing_.path(outline.text(), classes);
}

void Panel::even_line(std::span<const double> y, double start, double step, std::string_view classes) {
    Outline outline;
    for (const std::size_t i : drawn_samples(y, columns_of(plot_))) {
        if (std::isfinite(y[i])) {
            outline.add(x_(start + static_cast<double>(i) * step), y_(y[i]));
        } else {
            outline.start();
        }
    }
    drawing_.path(outline.text(), classes);
}

void Panel::even_area(std::span<const double> y, double start, double step, double base, std::string_view classes) {
    Outline outline;
    bool is_open = false;
    double last_x = 0.0;
    const auto end_piece = [&] {
        if (is_open) {
            outline.add(last_x, y_(base));
            outline.close();
        }
        is_open = false;
    };
    for (const std::size_t i : drawn_samples(y, columns_of(plot_))) {
        if (!std::isfinite(y[i])) {
            end_piece();
            continue;
        }
        last_x = x_(start + static_cast<double>(i) * step);
        if (!is_open) {
            outline.add(last_x, y_(base));
        }
        is_open = true;
        outline.add(last_x, y_(y[i]));
    }
    end_piece();
    drawing_.path(outline.text(), classes);
}

void Panel::band(std::span<const double> x, std::span<const double> low, std::span<const double> high,
                 std::string_view classes) {
    const auto is_whole = [&](std::size_t i) { return std::isfinite(low[i]) && std::isfinite(high[i]); };
    Outline outline;
    for (std::size_t first = 0; first < x.size(); ++first) {
        if (!is_whole(first)) {
            continue;
        }
        std::size_t end = first;
        while (end < x.size() && is_whole(end)) {
            outline.add(x_(x[end]), y_(high[end]));
            ++end;
        }
        for (std::size_t i = end; i-- > first;) {
            outline.add(x_(x[i]), y_(low[i]));
        }
        outline.close();
        first = end;
    }
    drawing_.path(outline.text(), classes);
}

void Panel::segment(double x1, double y1, double x2, double y2, std::string_view classes) {
    drawing_.segment(x_(x1), y_(y1), x_(x2), y_(y2), classes);
}

void Panel::x_span(double from, double to, std::string_view classes) {
    const double left = std::clamp(x_(from), plot_.left, plot_.right());
    const double right = std::clamp(x_(to), plot_.left, plot_.right());
    drawing_.rectangle({left, plot_.top, right - left, plot_.height}, classes);
}

void Panel::y_span(double from, double to, std::string_view classes) {
    const double top = std::clamp(y_(to), plot_.top, plot_.bottom());
    const double bottom = std::clamp(y_(from), plot_.top, plot_.bottom());
    drawing_.rectangle({plot_.left, top, plot_.width, bottom - top}, classes);
}

void Panel::y_rule(double y, std::string_view classes) {
    if (y_.values.contains(y)) {
        drawing_.segment(plot_.left, y_(y), plot_.right(), y_(y), classes);
    }
}

void Panel::x_rule(double x, std::string_view classes) {
    if (x_.values.contains(x)) {
        drawing_.segment(x_(x), plot_.top, x_(x), plot_.bottom(), classes);
    }
}

void Panel::mark(double x, double y, Marker marker, std::string_view classes, std::string_view tooltip,
                 double radius_px) {
    if (!x_.values.contains(x) || !y_.values.contains(y)) {
        return;
    }
    drawing_.marker(marker, x_(x), y_(y), radius_px, classes, tooltip);
    taken_.push_back({x_(x) - radius_px, y_(y) - radius_px, 2.0 * radius_px, 2.0 * radius_px});
}

bool Panel::label(double x, double y, std::string_view text, Place place, double gap_px) {
    const double font_px = drawing_.small_px();
    const double width = text_width_px(text, font_px);
    double left = x_(x) - 0.5 * width;
    double middle = y_(y);
    if (place == Place::above || place == Place::below) {
        left = std::clamp(left, plot_.left + 2.0, std::max(plot_.left + 2.0, plot_.right() - width - 2.0));
        middle += place == Place::above ? -gap_px - 0.5 * font_px : gap_px + 0.5 * font_px;
    } else {
        left = place == Place::right ? x_(x) + gap_px : x_(x) - gap_px - width;
    }
    const Box box{left, middle - 0.6 * font_px, width, 1.2 * font_px};
    const bool is_inside = box.left >= plot_.left && box.right() <= plot_.right() && box.top >= plot_.top &&
                           box.bottom() <= plot_.bottom();
    if (!is_inside || std::ranges::any_of(taken_, [&](const Box& other) { return other.overlaps(box); })) {
        return false;
    }
    drawing_.text(left + 0.5 * width, middle + 0.35 * font_px, text, "small halo", Anchor::middle);
    taken_.push_back(box);
    return true;
}

void Panel::say(std::string_view text) {
    drawing_.text(plot_.left + 0.5 * plot_.width, plot_.top + 0.5 * plot_.height,
                  shortened(text, plot_.width, drawing_.font_px()), "soft", Anchor::middle);
}

std::vector<Panel> stacked_panels(Drawing& drawing, const Axis& x, std::span<const PanelRow> rows) {
    const double font_px = drawing.small_px();
    const double gap_px = 0.6 * font_px;
    const double label_px = 1.9 * font_px;
    const Box& body = drawing.body();
    double free_px = body.height - tick_px - 2.8 * font_px;
    double shares = 0.0;
    for (const PanelRow& row : rows) {
        free_px -= row.fixed_px + gap_px + (row.y.label.empty() ? 0.0 : label_px);
        shares += row.fixed_px > 0.0 ? 0.0 : row.share;
    }
    const auto height_of = [&](const PanelRow& row) {
        return row.fixed_px > 0.0 ? row.fixed_px : std::max(4.0, free_px * row.share / shares);
    };
    double margin = 2.0 * font_px;
    for (const PanelRow& row : rows) {
        if (row.y.has_ticks) {
            const Ticks ticks = y_ticks(row.y, height_of(row), font_px);
            for (const double value : ticks.values) {
                margin = std::max(margin, text_width_px(ticks.text(value), font_px) + 8.0);
            }
        }
    }
    margin = std::min(margin, 0.4 * body.width);
    std::vector<Panel> panels;
    panels.reserve(rows.size());
    double top = body.top;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        top += gap_px + (rows[i].y.label.empty() ? 0.0 : label_px);
        const double height = height_of(rows[i]);
        // The last tick's label is centred below the end of the axis.
        const Box plot{body.left + margin, top, body.width - margin - font_px, height};
        panels.emplace_back(drawing, plot, x, rows[i].y, i + 1 == rows.size());
        top += height;
    }
    return panels;
}

}  // namespace jointrom
