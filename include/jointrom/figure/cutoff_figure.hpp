#pragma once

/// \file
/// The choice of a low-pass cut-off by residual analysis.

#include <jointrom/figure/figure_style.hpp>
#include <jointrom/signal/residual_analysis.hpp>

#include <string>
#include <string_view>

namespace jointrom {

/// What a low-pass takes away against its cut-off, as SVG: the straight line through the part where only noise is left,
/// its value at 0 Hz, and the cut-off at which as much is taken away.
/// \param unit   of the samples
/// \param in_use the cut-off that the recording was filtered with; unset for none
[[nodiscard]] std::string cutoff_figure(const ResidualAnalysis& analysis, std::string_view unit, Hertz in_use = Hertz(),
                                        const FigureStyle& style = {});

}  // namespace jointrom
