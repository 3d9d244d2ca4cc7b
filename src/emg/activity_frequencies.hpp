#pragma once

/// \file
/// Frequencies of a muscle over a recording, and how they fall. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// Fills in the frequencies of a muscle whose signal has any, where they are wished for.
void measure_frequencies(FrequencyWish wish, std::span<const Phase> phases, std::span<const Repetition> repetitions,
                         MuscleActivity& muscle);

/// What cannot be had is refused, or said of single muscles (emg-no-frequencies).
/// \throws Failure usage "emg-rate-too-low" when frequencies or the Teager-Kaiser energy are asked for in vain
void require_frequencies(const ActivityOptions& options, ActivityResult& result);

}  // namespace jointrom
