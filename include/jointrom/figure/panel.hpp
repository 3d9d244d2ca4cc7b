#pragma once

/// \file
/// A plot area with its axes, and marks placed by value.

#include <jointrom/figure/drawing.hpp>
#include <jointrom/figure/ticks.hpp>

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// What an axis shows. Its label names quantity and unit.
struct Axis {
    std::string label;
    Interval range;
    TickSteps steps = TickSteps::decimal;
    bool has_ticks = true;
};

class Panel {
  public:
    /// Draws grid and axes. \param plot the area between the axes
    Panel(Drawing& drawing, const Box& plot, const Axis& x, const Axis& y, bool labels_x);

    [[nodiscard]] const Box& plot() const noexcept { return plot_; }
    [[nodiscard]] double x_px(double value) const noexcept { return x_(value); }
    [[nodiscard]] double y_px(double value) const noexcept { return y_(value); }
    [[nodiscard]] const Interval& x_range() const noexcept { return x_.values; }
    [[nodiscard]] const Interval& y_range() const noexcept { return y_.values; }

    /// A line through points; it breaks at missing ones.
    void line(std::span<const double> x, std::span<const double> y, std::string_view classes);
    /// A line through drawn_points() of many points.
    void curve(std::span<const double> x, std::span<const double> y, std::string_view classes);
    /// A line through even samples, drawn_samples() of them. \param start x of the first \param step between two
    void even_line(std::span<const double> y, double start, double step, std::string_view classes);
    /// The area between even samples and `base`.
    void even_area(std::span<const double> y, double start, double step, double base, std::string_view classes);
    /// The area between two lines; it breaks where either is missing.
    void band(std::span<const double> x, std::span<const double> low, std::span<const double> high,
              std::string_view classes);
    /// A straight line between two points.
    void segment(double x1, double y1, double x2, double y2, std::string_view classes);
    /// Over the whole height, from one x to another; the part outside the panel is left out.
    void x_span(double from, double to, std::string_view classes);
    /// Over the whole width.
    void y_span(double from, double to, std::string_view classes);
    void y_rule(double y, std::string_view classes);
    void x_rule(double x, std::string_view classes);
    /// Nothing for a point that is missing or outside.
    void mark(double x, double y, Marker marker, std::string_view classes, std::string_view tooltip = {},
              double radius_px = 4.0);

    enum class Place { above, below, right, left };
    /// A text beside a point, unless it would cover another or leave the panel. \return whether it was drawn
    bool label(double x, double y, std::string_view text, Place place, double gap_px = 7.0);
    /// Keeps labels away from a box.
    void keep_free(const Box& box) { taken_.push_back(box); }
    /// A sentence in the middle, where there is nothing to draw.
    void say(std::string_view text);

  private:
    void draw_axes(const Axis& x, const Axis& y, bool labels_x);

    Drawing& drawing_;
    Box plot_;
    Scale x_;
    Scale y_;
    std::vector<Box> taken_;
};

/// One of several panels above each other.
struct PanelRow {
    Axis y;
    double share = 1.0;     ///< of the height that the rows without a fixed height divide
    double fixed_px = 0.0;  ///< height of the plot area; 0: by its share
};

/// Panels above each other that share their x axis, over the body of a drawing. Labels of x stand beneath the last.
[[nodiscard]] std::vector<Panel> stacked_panels(Drawing& drawing, const Axis& x, std::span<const PanelRow> rows);

}  // namespace jointrom
