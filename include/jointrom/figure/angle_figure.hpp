#pragma once

/// \file
/// The joint angle over time, its phases, holds and peaks, and the muscles beneath.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/emg/activity.hpp>
#include <jointrom/figure/figure_style.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/turning_points.hpp>

#include <span>
#include <string>

namespace jointrom {

/// Angle over time as SVG.
///
/// Phases are shaded and marked by shape in a strip of their own; holds are bars at their mean angle; peaks are marked
/// and, where there is room, labelled; each muscle's envelope stands beneath, four at most. A line of a million samples
/// keeps its extremes (drawn_samples()).
/// Missing samples: the line breaks.
/// \param phases  movement_phases() of the trace; may be empty
/// \param peaks   turning_points() of the trace; may be empty
/// \param muscles of the same recording; may be empty
[[nodiscard]] std::string angle_figure(const AngleTrace& trace, std::span<const Phase> phases,
                                       std::span<const TurningPoint> peaks, std::span<const MuscleActivity> muscles,
                                       const FigureStyle& style = {});

}  // namespace jointrom
