#pragma once

/// \file
/// One SVG document: title and description, legend, notes, and marks placed in pixels. Text stays text. The same calls
/// give the same bytes.

#include <jointrom/figure/figure_style.hpp>

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// A rectangle in pixels; y grows downward.
struct Box {
    double left;
    double top;
    double width;
    double height;

    [[nodiscard]] double right() const noexcept { return left + width; }
    [[nodiscard]] double bottom() const noexcept { return top + height; }
    [[nodiscard]] bool overlaps(const Box& other) const noexcept {
        return left < other.right() && other.left < right() && top < other.bottom() && other.top < bottom();
    }
};

enum class Anchor { start, middle, end };

enum class Marker { circle, ring, square, diamond, triangle_up, triangle_down, cross, wedge_up, wedge_down, bar };

/// How an entry of a legend looks.
struct LegendEntry {
    enum class Kind { line, band, marker };
    Kind kind;
    std::string classes;  ///< those of what it stands for
    std::string text;
    Marker marker = Marker::circle;
};

/// What a figure shows, in words.
struct FigureText {
    std::string title;
    std::string description;  ///< for those who cannot see it: what is drawn, with its main numbers
};

/// Classes of marks (figure_style_sheet): line1 to line4, mark1 to mark4, band1 to band4, and what panels use.
class Drawing {
  public:
    /// \param text title and description; the style's title goes first
    Drawing(const FigureStyle& style, const FigureText& text, std::size_t width_px, std::size_t height_px);

    /// Width of body() in a style, for figures that have to know beforehand what there is room for.
    [[nodiscard]] static double body_width_px(const FigureStyle& style, std::size_t width_px) noexcept;

    [[nodiscard]] double font_px() const noexcept { return font_px_; }
    [[nodiscard]] double small_px() const noexcept { return 0.87 * font_px_; }
    /// What title, legend and notes have left.
    [[nodiscard]] const Box& body() const noexcept { return body_; }

    /// A legend above the body, in as many lines as it needs.
    void legend(std::span<const LegendEntry> entries);
    /// A remark below the body, in as many lines as it needs (three at most).
    void note(std::string_view text);

    void rectangle(const Box& box, std::string_view classes);
    void segment(double x1, double y1, double x2, double y2, std::string_view classes);
    /// \param d path data
    void path(std::string_view d, std::string_view classes);
    /// \param tooltip shown when the reader points at it; empty for none
    void marker(Marker marker, double x, double y, double radius, std::string_view classes,
                std::string_view tooltip = {});
    void text(double x, double y, std::string_view text, std::string_view classes, Anchor anchor = Anchor::start);

    /// The whole document.
    [[nodiscard]] std::string svg() const;

  private:
    void write_head(const FigureStyle& style, const FigureText& text);
    void draw_symbol(const LegendEntry& entry, double x, double y);

    double width_;
    double height_;
    double font_px_;
    Box body_;
    std::string content_;
};

}  // namespace jointrom
