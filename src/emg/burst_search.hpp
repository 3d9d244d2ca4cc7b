#pragma once

/// \file
/// The rest that onsets are judged against, and the bursts that stand out from it. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

struct FoundBursts {
    std::optional<Baseline> baseline;
    std::vector<SampleSpan> bursts;  ///< in samples of the signal
    bool could_be_looked_for = false;
};

/// \throws Failure usage "baseline-empty"
[[nodiscard]] FoundBursts find_bursts(const EmgSignal& signal, const AngleTrace& trace, std::span<const Phase> phases,
                                      const ActivityOptions& options, Findings& findings);

/// The bursts with their figures and the repetition that each belongs to.
[[nodiscard]] std::vector<BurstActivity> burst_rows(const EmgSignal& signal, std::span<const SampleSpan> bursts,
                                                    double factor, std::span<const Repetition> repetitions);

}  // namespace jointrom
