#include "figure/marker_path.hpp"

#include <jointrom/figure/svg_text.hpp>

#include <fmt/format.h>

#include <initializer_list>
#include <utility>

namespace jointrom {
namespace {

std::string polygon(std::initializer_list<std::pair<double, double>> corners, double x, double y, double radius) {
    std::string d;
    for (const auto& [right, down] : corners) {
        d += fmt::format("{}{} {}", d.empty() ? "M" : "L", pixel_text(x + right * radius),
                         pixel_text(y + down * radius));
    }
    return d + "Z";
}

}  // namespace

std::string marker_path(Marker marker, double x, double y, double radius) {
    switch (marker) {
    case Marker::circle:
    case Marker::ring:
        return fmt::format("M{} {}a{r} {r} 0 1 0 {d} 0a{r} {r} 0 1 0 -{d} 0Z", pixel_text(x - radius), pixel_text(y),
                           fmt::arg("r", pixel_text(radius)), fmt::arg("d", pixel_text(2.0 * radius)));
    case Marker::square:
        return polygon({{-0.9, -0.9}, {0.9, -0.9}, {0.9, 0.9}, {-0.9, 0.9}}, x, y, radius);
    case Marker::diamond:
        return polygon({{0.0, -1.25}, {1.25, 0.0}, {0.0, 1.25}, {-1.25, 0.0}}, x, y, radius);
    case Marker::triangle_up:
        return polygon({{0.0, -1.2}, {1.15, 0.85}, {-1.15, 0.85}}, x, y, radius);
    case Marker::triangle_down:
        return polygon({{0.0, 1.2}, {1.15, -0.85}, {-1.15, -0.85}}, x, y, radius);
    case Marker::cross:
        return polygon({{-1.1, -0.7},
                        {-0.7, -1.1},
                        {0.0, -0.4},
                        {0.7, -1.1},
                        {1.1, -0.7},
                        {0.4, 0.0},
                        {1.1, 0.7},
                        {0.7, 1.1},
                        {0.0, 0.4},
                        {-0.7, 1.1},
                        {-1.1, 0.7},
                        {-0.4, 0.0}},
                       x, y, radius);
    case Marker::wedge_up:
        return polygon({{-1.0, 1.0}, {1.0, -1.0}, {1.0, 1.0}}, x, y, radius);
    case Marker::wedge_down:
        return polygon({{-1.0, -1.0}, {1.0, 1.0}, {-1.0, 1.0}}, x, y, radius);
    case Marker::bar:
        break;
    }
    return polygon({{-1.0, -0.9}, {1.0, -0.9}, {1.0, -0.1}, {-1.0, -0.1}}, x, y, radius);
}

}  // namespace jointrom
