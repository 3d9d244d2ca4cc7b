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

/// The figures of each repetition as a whole.
[[nodiscard]] std::vector<ActivityFigures> whole_repetitions(const MeasuredMuscle& muscle,
                                                             std::span<const Repetition> repetitions);

/// Every phase. \param wholes of the repetitions
[[nodiscard]] std::vector<PhaseActivity> activity_by_phase(const MeasuredMuscle& muscle, std::span<const Phase> phases,
                                                           std::span<const Repetition> repetitions,
                                                           std::span<const ActivityFigures> wholes);

/// Every repetition, as a whole and by phase. \param wholes of the repetitions
[[nodiscard]] std::vector<RepetitionActivity> activity_by_repetition(const MeasuredMuscle& muscle,
                                                                     std::span<const Phase> phases,
                                                                     std::span<const Repetition> repetitions,
                                                                     std::span<const ActivityFigures> wholes);

/// Mean over the repetitions of their mean activity in phases of `kind`; NaN where there is none.
[[nodiscard]] double mean_in(std::span<const RepetitionActivity> rows, PhaseKind kind);

}  // namespace jointrom
