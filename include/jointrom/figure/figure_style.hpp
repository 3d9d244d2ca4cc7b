#pragma once

/// \file
/// How a figure looks: its size, its title, and how it fits into a page with others.

#include <cstddef>
#include <string>

namespace jointrom {

/// What is left empty or 0 is the figure's own.
struct FigureStyle {
    std::size_t width_px = 0;   ///< least 200
    std::size_t height_px = 0;  ///< least 150
    std::string title = {};
    std::string subtitle = {};      ///< smaller, beneath the title: whose recording it is
    std::string id_prefix = "fig";  ///< before every id, so that several figures can stand in one page
    bool with_style_sheet = true;   ///< false in a page that holds figure_style_sheet() itself
};

/// The rules that every figure is drawn with, as CSS. Each is bound to the class of figures, so none reaches anything
/// else in a page. Light on screens that are light and on paper, dark where the reader prefers it.
///
/// Meaning is never in a colour alone: series differ in dashes and markers too, phases in the shape of their mark.
[[nodiscard]] const std::string& figure_style_sheet();

}  // namespace jointrom
