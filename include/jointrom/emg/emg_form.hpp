#pragma once

/// \file
/// What kind of signal an EMG channel holds.

#include <jointrom/core/units.hpp>

#include <span>
#include <string_view>

namespace jointrom {

enum class EmgForm {
    raw,        ///< swings to both sides of its rest
    rectified,  ///< swings to one side of its rest, and fast
    envelope    ///< one side and slow: the logger or sensor has smoothed it
};

[[nodiscard]] std::string_view name_of(EmgForm form);

/// The form, as the samples show it.
///
/// Method: a signal with a negative sample is raw. So is one that swings to both sides alike: its 99.5th percentile is
/// less than twice as far from the median as its 0.5th (a rectified normal signal: 3.2 times). Of the others, the one
/// with more than 90 % of its power below 10 Hz is an envelope. A signal that swings to both sides and has that little
/// power above 10 Hz is an envelope too, if its rate is above 40 Hz: no electromyogram is that slow. (Percentages:
/// design choice.)
/// Missing samples: skipped.
/// \return raw for fewer than ten samples
[[nodiscard]] EmgForm emg_form_of(std::span<const double> samples, Hertz rate);

}  // namespace jointrom
