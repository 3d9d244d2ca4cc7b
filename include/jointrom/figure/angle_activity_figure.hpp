#pragma once

/// \file
/// Muscle activity against the joint angle.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/emg/activity.hpp>
#include <jointrom/figure/figure_style.hpp>
#include <jointrom/movement/phases.hpp>

#include <span>
#include <string>

namespace jointrom {

/// Each muscle's envelope against the angle as SVG, raising and lowering apart; four muscles at most.
///
/// Method: the envelope at each sample of the angle, in some fifteen classes of angle: their medians as lines, the
/// middle halves as bands, for raising and for lowering. Each hold is a mark at its mean angle and median activity.
/// Missing samples: skipped; a class with fewer than three samples is left out.
[[nodiscard]] std::string angle_activity_figure(const AngleTrace& trace, std::span<const Phase> phases,
                                                std::span<const MuscleActivity> muscles, const FigureStyle& style = {});

}  // namespace jointrom
