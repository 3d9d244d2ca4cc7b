#include "emg/activity_frequencies.hpp"

#include <jointrom/core/failure.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace jointrom {
namespace {

const Phase* longest_hold(std::span<const Phase> phases) {
    const Phase* longest = nullptr;
    for (const Phase& phase : phases) {
        if (phase.kind == PhaseKind::holding && (longest == nullptr || phase.duration() > longest->duration())) {
            longest = &phase;
        }
    }
    return longest;
}

/// The stretches that get a row each.
std::vector<FrequencyRow> frequency_rows(std::span<const Phase> phases, std::span<const Repetition> repetitions) {
    constexpr std::size_t enough_repetitions = 3;
    constexpr double long_hold_s = 3.0;
    const Phase* hold = longest_hold(phases);
    std::vector<FrequencyRow> rows;
    if (repetitions.size() < enough_repetitions && hold != nullptr && hold->duration().value() >= long_hold_s) {
        for (Seconds from = hold->start; from + Seconds(1.0) <= hold->end; from = from + Seconds(1.0)) {
            rows.push_back({.start = from, .end = from + Seconds(1.0)});
        }
        return rows;
    }
    for (const Repetition& repetition : repetitions) {
        rows.push_back({.repetition = repetition.number, .start = repetition.start, .end = repetition.end});
    }
    return rows;
}

}  // namespace

void measure_frequencies(FrequencyWish wish, std::span<const Phase> phases, std::span<const Repetition> repetitions,
                         MuscleActivity& muscle) {
    const EmgSignal& signal = muscle.signal;
    if (wish == FrequencyWish::none || !signal.has_frequencies()) {
        return;
    }
    std::vector<double> time_s;
    std::vector<double> medians;
    std::vector<double> means;
    muscle.frequencies = frequency_rows(phases, repetitions);
    for (FrequencyRow& row : muscle.frequencies) {
        row.frequencies = emg_frequencies(slice(signal.samples, signal.span(row.start, row.end)), signal.rate);
        time_s.push_back(0.5 * (row.start + row.end).value());
        medians.push_back(row.frequencies.median.value());
        means.push_back(row.frequencies.mean.value());
    }
    muscle.median_trend = trend_of(time_s, medians);
    muscle.mean_trend = trend_of(time_s, means);
}

void require_frequencies(const ActivityOptions& options, ActivityResult& result) {
    const bool are_required = options.frequencies == FrequencyWish::required;
    if (!are_required && options.onset != OnsetSignal::teager_kaiser) {
        return;
    }
    const auto can = [](const MuscleActivity& muscle) { return muscle.signal.has_frequencies(); };
    if (std::ranges::none_of(result.muscles, can)) {
        const EmgSignal& signal = result.muscles.front().signal;
        throw Failure(FailureKind::usage, "emg-rate-too-low",
                      fmt::format("{} needs a raw electromyogram at 1000 Hz or more; '{}' is {} at {:.4g} Hz",
                                  are_required ? "--frequencies" : "--onset teager-kaiser", signal.name,
                                  name_of(signal.form), signal.rate.value()),
                      "What lies above half the logger's rate is folded down and cannot be told apart again.");
    }
    for (const MuscleActivity& muscle : result.muscles) {
        if (!can(muscle)) {
            result.findings.emplace_back("emg-no-frequencies",
                                         fmt::format("'{}': {} at {:.4g} Hz", muscle.signal.name,
                                                     name_of(muscle.signal.form), muscle.signal.rate.value()));
        }
    }
}

}  // namespace jointrom
