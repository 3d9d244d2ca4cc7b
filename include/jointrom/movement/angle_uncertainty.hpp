#pragma once

/// \file
/// How the uncertainty of a trace carries over to an angle, and to an arc between two angles, measured in it.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/uncertainty.hpp>

namespace jointrom {

/// What the sensor contributes to one angle: its gain (times the distance from neutral), its linearity, and the neutral
/// zero. Noise is not in it: how much is left depends on how the angle was measured.
///
/// \param angle the measured angle, which the uncertainty of the gain is multiplied by
/// \par Reference JCGM 100:2008 (GUM), 5.1
[[nodiscard]] Budget angle_budget(const AngleTrace& trace, Degrees angle);

/// The same for the difference of two angles: the neutral zero cancels, the gain counts for the arc alone because both
/// ends share it, the linearity counts twice in squares.
[[nodiscard]] Budget arc_budget(const AngleTrace& trace, Degrees arc);

}  // namespace jointrom
