#include "emg/burst_search.hpp"

#include "emg/activity_figures.hpp"
#include "emg/onset_signal.hpp"
#include "emg/stretches.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/signal/moving_window.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

constexpr double shortest_rest_s = 0.5;

/// Rest phases that are long enough, without what lies next to a movement: a muscle starts before the joint does.
std::vector<SampleSpan> rests(const EmgSignal& signal, const AngleTrace& trace, std::span<const Phase> phases) {
    constexpr Seconds margin{0.2};
    std::vector<SampleSpan> spans;
    // Where the joint does not move at all, as in a maximal contraction, a still joint says nothing about the muscle.
    if (std::ranges::all_of(phases, [](const Phase& phase) { return phase.kind == PhaseKind::rest; })) {
        return spans;
    }
    for (const Phase& phase : phases) {
        if (phase.kind != PhaseKind::rest) {
            continue;
        }
        const Seconds from = phase.start > trace.start() ? phase.start + margin : phase.start;
        const Seconds to = phase.end < trace.time(trace.size()) ? phase.end - margin : phase.end;
        if ((to - from).value() >= shortest_rest_s) {
            spans.push_back(signal.span(from, to));
        }
    }
    return spans;
}

std::optional<SampleSpan> quietest_half_second(const EmgSignal& signal, std::span<const double> onset,
                                               SampleSpan measured) {
    const auto window = static_cast<std::size_t>(std::max(2.0, std::round(shortest_rest_s * signal.rate.value())));
    if (measured.size() < window) {
        return std::nullopt;
    }
    const auto means = moving_mean(slice(onset, measured), window, WindowEnds::missing);
    std::optional<std::size_t> best;
    for (std::size_t i = 0; i < means.size(); ++i) {
        if (!std::isnan(means[i]) && (!best || means[i] < means[*best])) {
            best = i;
        }
    }
    if (!best) {
        return std::nullopt;
    }
    const std::size_t first = measured.first + *best - window / 2;
    return SampleSpan{first, first + window};
}

std::optional<Baseline> stated_baseline(const EmgSignal& signal, std::span<const double> onset, TimeWindow window) {
    auto baseline = baseline_of(onset, signal.span(window.start, window.end));
    if (!baseline) {
        throw Failure(FailureKind::usage, "baseline-empty",
                      fmt::format("--baseline-s: '{}' has no samples from {:.3f} to {:.3f} s", signal.name,
                                  window.start.value(), window.end.value()),
                      "Name a stretch of the recording in which the muscle rests.");
    }
    return baseline;
}

std::optional<Baseline> found_baseline(const EmgSignal& signal, std::span<const double> onset, SampleSpan measured,
                                       std::span<const SampleSpan> rests, Findings& findings) {
    std::optional<Baseline> quietest;
    for (const SampleSpan rest : rests) {
        const auto baseline = baseline_of(onset, rest);
        if (baseline && (!quietest || baseline->mean < quietest->mean)) {
            quietest = baseline;
        }
    }
    if (quietest) {
        return quietest;
    }
    const auto quiet = quietest_half_second(signal, onset, measured);
    if (!quiet) {
        return std::nullopt;
    }
    findings.emplace_back("emg-baseline-assumed",
                          fmt::format("'{}': quietest from {:.3f} to {:.3f} s", signal.name,
                                      signal.time(quiet->first).value(), signal.time(quiet->last).value()));
    return baseline_of(onset, *quiet);
}

/// Whether more than a twentieth of the samples lie above the threshold.
bool is_often_above(std::span<const double> samples, double threshold) {
    constexpr double often = 0.05;
    double count = 0.0;
    double above = 0.0;
    for (const double x : samples) {
        count += std::isnan(x) ? 0.0 : 1.0;
        above += x > threshold ? 1.0 : 0.0;
    }
    return above > often * count;
}

std::size_t overlap(const BurstActivity& burst, const Repetition& repetition, const EmgSignal& signal) {
    return signal.span(std::max(burst.onset, repetition.start), std::min(burst.offset, repetition.end)).size();
}

const Repetition* repetition_with(const BurstActivity& burst, std::span<const Repetition> repetitions,
                                  const EmgSignal& signal) {
    const Repetition* best = nullptr;
    for (const Repetition& repetition : between(repetitions, burst.onset, burst.offset)) {
        const std::size_t size = overlap(burst, repetition, signal);
        if (size > 0 && (best == nullptr || size > overlap(burst, *best, signal))) {
            best = &repetition;
        }
    }
    return best;
}

}  // namespace

FoundBursts find_bursts(const EmgSignal& signal, const AngleTrace& trace, std::span<const Phase> phases,
                        const ActivityOptions& options, Findings& findings) {
    const std::vector<double> onset = onset_signal(signal, options.onset);
    const SampleSpan measured = signal.span(trace.start(), trace.time(trace.size()));
    FoundBursts found;
    found.baseline = options.baseline.is_set()
                         ? stated_baseline(signal, onset, options.baseline)
                         : found_baseline(signal, onset, measured, rests(signal, trace, phases), findings);
    if (!found.baseline) {
        return found;
    }
    const double threshold = found.baseline->threshold(options.threshold_sd);
    if (!is_often_above(slice(onset, measured), threshold)) {
        findings.emplace_back("emg-no-rest", fmt::format("'{}': at rest hardly quieter than elsewhere", signal.name));
        return found;
    }
    found.could_be_looked_for = true;
    found.bursts = active_bursts(slice(onset, measured), signal.rate, threshold, options.bursts);
    for (SampleSpan& burst : found.bursts) {
        burst = {burst.first + measured.first, burst.last + measured.first};
    }
    return found;
}

std::vector<BurstActivity> burst_rows(const EmgSignal& signal, std::span<const SampleSpan> bursts, double factor,
                                      std::span<const Repetition> repetitions) {
    const MeasuredMuscle muscle{.signal = signal, .bursts = bursts, .has_bursts = true, .factor = factor};
    std::vector<BurstActivity> rows;
    std::size_t latest = 0;
    for (const SampleSpan burst : bursts) {
        const std::array span{burst};
        BurstActivity row{
            .onset = signal.time(burst.first), .offset = signal.time(burst.last), .figures = figures_in(muscle, span)};
        if (const Repetition* repetition = repetition_with(row, repetitions, signal)) {
            row.repetition = repetition->number;
            row.lead = repetition->number != latest ? repetition->start - row.onset : Seconds();
            latest = repetition->number;
        }
        rows.push_back(row);
    }
    return rows;
}

}  // namespace jointrom
