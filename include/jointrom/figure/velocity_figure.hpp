#pragma once

/// \file
/// The angular velocity over time.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/figure/figure_style.hpp>
#include <jointrom/movement/phases.hpp>

#include <span>
#include <string>

namespace jointrom {

/// Angular velocity over time as SVG: phases shaded, the peak of each movement marked.
/// Missing samples: the line breaks.
[[nodiscard]] std::string velocity_figure(const AngleTrace& trace, std::span<const Phase> phases,
                                          const FigureStyle& style = {});

}  // namespace jointrom
