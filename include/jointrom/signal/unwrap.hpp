#pragma once

/// \file
/// Undoing the jumps of a quantity that is known only up to whole turns.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

struct Unwrapped {
    std::vector<double> samples;
    std::size_t jump_count = 0;  ///< steps at which whole periods were added or taken away
};

/// `samples` with whole periods added, so that no step from one sample to the next is longer than half a period.
///
/// Method: a step of exactly half a period is left as it is. The first sample keeps its value, and so the result may
/// lie whole periods away from the usual range.
/// Missing samples: skipped; the step across a gap is that between the samples beside it, so a gap in which the
/// quantity moved by more than half a period cannot be seen.
///
/// \param period length of a turn in the unit of `samples`, above 0
/// \pre   the true signal moves less than half a period between samples
/// \par Accuracy equal to numpy.unwrap 1.24.2, with less rounding: whole periods are counted, not summed
[[nodiscard]] Unwrapped unwrap(std::span<const double> samples, double period = 360.0);

}  // namespace jointrom
