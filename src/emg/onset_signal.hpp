#pragma once

/// \file
/// What onsets are looked for in. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// The strength of a muscle over time, without what filters smear before an onset and behind an offset.
///
/// Method: the signal without offset is filtered in one direction only, rectified (or its Teager-Kaiser energy taken),
/// and smoothed in that direction, low-pass 50 Hz or a fifth of the rate; once forward, once backward; at each sample
/// the lower of both. A filter rings into what it comes to next: forward behind a burst, backward before it. Where one
/// of the two rings, the other is quiet. An envelope is taken as it is.
/// Missing samples: stay missing.
[[nodiscard]] std::vector<double> onset_signal(const EmgSignal& signal, OnsetSignal kind);

}  // namespace jointrom
