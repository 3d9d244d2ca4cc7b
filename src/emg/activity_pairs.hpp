#pragma once

/// \file
/// Muscles that are named, and pairs of them. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// The muscle of that name, in any case.
/// \throws Failure usage "muscle-unknown", naming the nearest
[[nodiscard]] const MuscleActivity& muscle_named(const ActivityResult& result, std::string_view name,
                                                 std::string_view option);

/// Highest value of the envelope within a span.
[[nodiscard]] double peak_of(const EmgSignal& signal, SampleSpan span);

/// Fills in the pairs. The muscles are measured.
void measure_pairs(const AngleTrace& trace, std::span<const Repetition> repetitions, const ActivityOptions& options,
                   ActivityResult& result);

}  // namespace jointrom
