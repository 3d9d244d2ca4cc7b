#pragma once

/// \file
/// Figures of one muscle over stretches of time. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// A muscle's signal, when it is active, and what its figures are multiplied by.
struct MeasuredMuscle {
    const EmgSignal& signal;
    std::span<const SampleSpan> bursts;  ///< in samples of the signal
    bool has_bursts;                     ///< whether they could be looked for
    double factor;
};

[[nodiscard]] ActivityFigures figures_in(const MeasuredMuscle& muscle, std::span<const SampleSpan> spans);

/// Every phase; `repetition_of` gives the number of the repetition that each belongs to.
[[nodiscard]] std::vector<PhaseActivity> activity_by_phase(const MeasuredMuscle& muscle, std::span<const Phase> phases,
                                                           std::span<const Repetition> repetitions);

[[nodiscard]] std::vector<RepetitionActivity> activity_by_repetition(const MeasuredMuscle& muscle,
                                                                     std::span<const Phase> phases,
                                                                     std::span<const Repetition> repetitions);

/// Mean over the repetitions of their mean activity in phases of `kind`; NaN where there is none.
[[nodiscard]] double mean_in(std::span<const RepetitionActivity> rows, PhaseKind kind);

}  // namespace jointrom
