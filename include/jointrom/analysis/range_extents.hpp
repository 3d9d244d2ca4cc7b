#pragma once

/// \file
/// A range of motion as the extents that a check of a person starts from.

#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/norms/judgement.hpp>

#include <vector>

namespace jointrom {

/// Which of the three figures of a range counts.
enum class RangeFigure {
    extreme,  ///< the farthest angles
    held,     ///< the farthest postures that were held
    mean      ///< the means over the repetitions
};

/// "extreme", "held" or "mean". \throws Failure usage "setting-invalid"
[[nodiscard]] RangeFigure range_figure_named(std::string_view text);

/// The extents in the positive and the negative direction and the arc between them.
///
/// Method: what both ends share cancels in the uncertainty of the arc.
/// \return none for held postures or repetitions that there were not
[[nodiscard]] std::vector<MeasuredExtent> measured_extents(const RangeOfMotion& range,
                                                           RangeFigure figure = RangeFigure::extreme);

}  // namespace jointrom
