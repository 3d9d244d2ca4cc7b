#pragma once

/// \file
/// A calibration: the line, its points, and how far they lie off.

#include <jointrom/angle/calibration.hpp>
#include <jointrom/figure/figure_style.hpp>

#include <string>

namespace jointrom {

/// Known angle against reading, and the residuals beneath, as SVG. Points approached rising and falling have markers of
/// their own; the band about the residuals is the expanded uncertainty (95 %) of one reading.
[[nodiscard]] std::string calibration_figure(const Calibration& calibration, const FigureStyle& style = {});

}  // namespace jointrom
