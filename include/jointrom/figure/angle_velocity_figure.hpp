#pragma once

/// \file
/// The angular velocity against the angle: the shape of the movement without its time.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/figure/figure_style.hpp>
#include <jointrom/movement/repetitions.hpp>

#include <span>
#include <string>

namespace jointrom {

/// Angular velocity against angle as SVG: each repetition a loop, twelve at most, and their mean loop.
///
/// Method: the mean loop has the mean angle and the mean velocity of all repetitions at each percent of their duration.
/// Without repetitions the whole recording is drawn. Points nearer than half a pixel are left out (drawn_points()).
[[nodiscard]] std::string angle_velocity_figure(const AngleTrace& trace, std::span<const Repetition> repetitions,
                                                const FigureStyle& style = {});

}  // namespace jointrom
