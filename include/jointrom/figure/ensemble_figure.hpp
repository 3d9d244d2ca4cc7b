#pragma once

/// \file
/// The repetitions laid over each other.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/figure/figure_style.hpp>
#include <jointrom/movement/ensemble_curve.hpp>

#include <string>

namespace jointrom {

/// Mean and mean +- SD of the angle over 0 to 100 % of a repetition as SVG; up to twenty single curves beneath.
/// \param trace that the curves come from: joint and side
[[nodiscard]] std::string ensemble_figure(const AngleTrace& trace, const EnsembleCurve& curve,
                                          const FigureStyle& style = {});

}  // namespace jointrom
