#pragma once

/// \file
/// By how much the joint follows a muscle. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// Fills in the lags of a muscle whose signal and action are known.
void measure_lags(const AngleTrace& trace, std::span<const Repetition> repetitions, MuscleActivity& muscle);

/// The envelope between its samples; NaN outside.
[[nodiscard]] double envelope_at(const EmgSignal& signal, Seconds time);

}  // namespace jointrom
