#include <jointrom/figure/drawing.hpp>

#include "figure/marker_path.hpp"

#include <jointrom/figure/svg_text.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr std::size_t least_width_px = 200;
constexpr std::size_t least_height_px = 150;
constexpr double margin_px = 10.0;

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find_first_of(" \t\r\n"), text.size());
        if (end > 0) {
            words.emplace_back(text.substr(0, end));
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return words;
}

/// Lines no wider than `width_px`; what does not fit into `most_lines` is cut with an ellipsis.
std::vector<std::string> wrapped(std::string_view text, double width_px, double font_px, std::size_t most_lines) {
    std::vector<std::string> lines;
    for (const std::string& word : words_of(text)) {
        const bool fits = !lines.empty() && text_width_px(lines.back() + " " + word, font_px) <= width_px;
        if (fits || (!lines.empty() && lines.size() == most_lines)) {
            lines.back() += " " + word;
        } else {
            lines.push_back(word);
        }
    }
    for (std::string& line : lines) {
        line = shortened(line, width_px, font_px);
    }
    return lines;
}

double symbol_width_px(const LegendEntry& entry) {
    return entry.kind == LegendEntry::Kind::marker ? 16.0 : 28.0;
}

double document_width_px(const FigureStyle& style, std::size_t width_px) {
    return static_cast<double>(std::max(least_width_px, style.width_px > 0 ? style.width_px : width_px));
}

}  // namespace

double Drawing::body_width_px(const FigureStyle& style, std::size_t width_px) noexcept {
    return document_width_px(style, width_px) - 2.0 * margin_px;
}

Drawing::Drawing(const FigureStyle& style, const FigureText& text, std::size_t width_px, std::size_t height_px)
    : width_(document_width_px(style, width_px)),
      height_(static_cast<double>(std::max(least_height_px, style.height_px > 0 ? style.height_px : height_px))),
      font_px_(std::clamp(width_ / 42.0, 10.0, 15.0)), body_{margin_px, margin_px, width_ - 2.0 * margin_px,
                                                             height_ - 2.0 * margin_px} {
    write_head(style, text);
}

void Drawing::write_head(const FigureStyle& style, const FigureText& text) {
    const std::string& title = style.title.empty() ? text.title : style.title;
    const std::string id = xml_text(style.id_prefix);
    content_ = fmt::format(
        R"(<svg xmlns="http://www.w3.org/2000/svg" id="{0}" class="jointrom-figure" width="{1}" height="{2}" )"
        R"(viewBox="0 0 {1} {2}" role="img" aria-labelledby="{0}-title {0}-desc" font-family="sans-serif" )"
        R"(font-size="{3}">)"
        "\n<title id=\"{0}-title\">{4}</title>\n<desc id=\"{0}-desc\">{5}</desc>\n",
        id, pixel_text(width_), pixel_text(height_), pixel_text(font_px_), xml_text(title), xml_text(text.description));
    if (style.with_style_sheet) {
        content_ += "<style>\n" + figure_style_sheet() + "</style>\n";
    }
    rectangle({0.0, 0.0, width_, height_}, "paper");
    const double title_px = 1.13 * font_px_;
    const auto write_lines = [&](const std::string& what, double size_px, double bold, std::string_view classes) {
        for (const std::string& line : wrapped(what, body_.width / bold, size_px, 2)) {
            this->text(body_.left, body_.top + size_px, line, classes);
            body_.top += 1.3 * size_px;
            body_.height -= 1.3 * size_px;
        }
    };
    write_lines(title, title_px, 1.1, "title");
    write_lines(style.subtitle, small_px(), 1.0, "small soft");
}

void Drawing::draw_symbol(const LegendEntry& entry, double x, double y) {
    switch (entry.kind) {
    case LegendEntry::Kind::line:
        segment(x, y, x + 22.0, y, entry.classes);
        break;
    case LegendEntry::Kind::band:
        rectangle({x, y - 5.0, 22.0, 10.0}, entry.classes);
        break;
    case LegendEntry::Kind::marker:
        marker(entry.marker, x + 5.0, y, 5.0, entry.classes);
        break;
    }
}

void Drawing::legend(std::span<const LegendEntry> entries) {
    const double line_px = 1.45 * small_px();
    double x = body_.left;
    double y = body_.top + 0.5 * line_px;
    for (const LegendEntry& entry : entries) {
        const double symbol_px = symbol_width_px(entry);
        const std::string shown = shortened(entry.text, body_.width - symbol_px, small_px());
        const double width = symbol_px + text_width_px(shown, small_px()) + 12.0;
        if (x > body_.left && x + width > body_.right() + 12.0) {
            x = body_.left;
            y += line_px;
        }
        draw_symbol(entry, x, y);
        text(x + symbol_px, y + 0.35 * small_px(), shown, "small soft");
        x += width;
    }
    const double used = entries.empty() ? 0.0 : y + 0.6 * line_px - body_.top;
    body_.top += used;
    body_.height -= used;
}

void Drawing::note(std::string_view remark) {
    const std::vector<std::string> lines = wrapped(remark, body_.width, small_px(), 3);
    const double line_px = 1.3 * small_px();
    body_.height -= line_px * static_cast<double>(lines.size());
    double y = body_.bottom() + 0.95 * line_px;
    for (const std::string& line : lines) {
        text(body_.left, y, line, "small soft");
        y += line_px;
    }
}

void Drawing::rectangle(const Box& box, std::string_view classes) {
    content_ += fmt::format("<rect class=\"{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", classes,
                            pixel_text(box.left), pixel_text(box.top), pixel_text(std::max(0.0, box.width)),
                            pixel_text(std::max(0.0, box.height)));
}

void Drawing::segment(double x1, double y1, double x2, double y2, std::string_view classes) {
    content_ += fmt::format("<line class=\"{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", classes, pixel_text(x1),
                            pixel_text(y1), pixel_text(x2), pixel_text(y2));
}

void Drawing::path(std::string_view d, std::string_view classes) {
    if (!d.empty()) {
        content_ += fmt::format("<path class=\"{}\" d=\"{}\"/>\n", classes, d);
    }
}

void Drawing::marker(Marker marker, double x, double y, double radius, std::string_view classes,
                     std::string_view tooltip) {
    const std::string d = marker_path(marker, x, y, radius);
    if (tooltip.empty()) {
        path(d, classes);
    } else {
        content_ +=
            fmt::format("<path class=\"{}\" d=\"{}\"><title>{}</title></path>\n", classes, d, xml_text(tooltip));
    }
}

void Drawing::text(double x, double y, std::string_view text, std::string_view classes, Anchor anchor) {
    const std::string_view where = anchor == Anchor::middle ? R"( text-anchor="middle")"
                                   : anchor == Anchor::end  ? R"( text-anchor="end")"
                                                            : "";
    content_ += fmt::format("<text class=\"{}\" x=\"{}\" y=\"{}\"{}>{}</text>\n", classes, pixel_text(x), pixel_text(y),
                            where, xml_text(text));
}

std::string Drawing::svg() const {
    return content_ + "</svg>\n";
}

}  // namespace jointrom
