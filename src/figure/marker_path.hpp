#pragma once

/// \file
/// The outlines of markers. Private.

#include <jointrom/figure/drawing.hpp>

#include <string>

namespace jointrom {

/// Path data of a marker about a point.
[[nodiscard]] std::string marker_path(Marker marker, double x, double y, double radius);

}  // namespace jointrom
