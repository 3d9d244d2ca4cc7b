#include "emg/activity_figures.hpp"

#include "emg/stretches.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

/// How many samples of `span` lie within bursts, which are in order of time.
std::size_t active_samples(std::span<const SampleSpan> bursts, SampleSpan span) {
    std::size_t active = 0;
    for (auto burst = std::ranges::upper_bound(bursts, span.first, {}, &SampleSpan::last);
         burst != bursts.end() && burst->first < span.last; ++burst) {
        active += std::min(burst->last, span.last) - std::max(burst->first, span.first);
    }
    return active;
}

double share_pct(const ActivityFigures& part, const ActivityFigures& whole) {
    return whole.integral > 0.0 ? 100.0 * part.integral / whole.integral : std::numeric_limits<double>::quiet_NaN();
}

/// The stretches of `kind` within a repetition, in samples of the signal.
std::vector<SampleSpan> spans_of(const EmgSignal& signal, std::span<const Phase> phases, PhaseKind kind,
                                 const Repetition& repetition) {
    std::vector<SampleSpan> spans;
    for (const Phase& phase : between(phases, repetition.start, repetition.end)) {
        if (phase.kind == kind) {
            spans.push_back(signal.span(std::max(phase.start, repetition.start), std::min(phase.end, repetition.end)));
        }
    }
    return spans;
}

}  // namespace

ActivityFigures figures_in(const MeasuredMuscle& muscle, std::span<const SampleSpan> spans) {
    const EmgSignal& signal = muscle.signal;
    std::size_t all = 0;
    std::size_t active = 0;
    double count = 0.0;
    double sum = 0.0;
    double squares = 0.0;
    double peak = 0.0;
    for (const SampleSpan span : spans) {
        all += span.size();
        for (std::size_t i = span.first; i < span.last; ++i) {
            if (!std::isnan(signal.samples[i])) {
                count += 1.0;
                sum += std::abs(signal.samples[i]);
                squares += signal.samples[i] * signal.samples[i];
                peak = std::isnan(signal.envelope[i]) ? peak : std::max(peak, signal.envelope[i]);
            }
        }
        active += active_samples(muscle.bursts, span);
    }
    const auto places = static_cast<double>(all);
    ActivityFigures figures{.duration_s = places / signal.rate.value()};
    if (all == 0 || count < 0.5 * places) {
        return figures;
    }
    figures.mean = muscle.factor * sum / count;
    figures.rms = muscle.factor * std::sqrt(squares / count);
    figures.peak = muscle.factor * peak;
    figures.integral = figures.mean * figures.duration_s;
    if (muscle.has_bursts) {
        figures.active_pct = 100.0 * static_cast<double>(active) / places;
    }
    return figures;
}

std::vector<ActivityFigures> whole_repetitions(const MeasuredMuscle& muscle, std::span<const Repetition> repetitions) {
    std::vector<ActivityFigures> wholes;
    for (const Repetition& repetition : repetitions) {
        const std::array span{muscle.signal.span(repetition.start, repetition.end)};
        wholes.push_back(figures_in(muscle, span));
    }
    return wholes;
}

std::vector<PhaseActivity> activity_by_phase(const MeasuredMuscle& muscle, std::span<const Phase> phases,
                                             std::span<const Repetition> repetitions,
                                             std::span<const ActivityFigures> wholes) {
    std::vector<PhaseActivity> rows;
    for (const Phase& phase : phases) {
        const Repetition* repetition = repetition_with(phase, repetitions);
        const std::array span{muscle.signal.span(phase.start, phase.end)};
        PhaseActivity row{
            .kind = phase.kind, .start = phase.start, .end = phase.end, .figures = figures_in(muscle, span)};
        if (repetition != nullptr) {
            row.repetition = repetition->number;
            row.share_pct = share_pct(row.figures, wholes[static_cast<std::size_t>(repetition - repetitions.data())]);
        }
        rows.push_back(row);
    }
    return rows;
}

std::vector<RepetitionActivity> activity_by_repetition(const MeasuredMuscle& muscle, std::span<const Phase> phases,
                                                       std::span<const Repetition> repetitions,
                                                       std::span<const ActivityFigures> wholes) {
    std::vector<RepetitionActivity> rows;
    for (std::size_t i = 0; i < repetitions.size(); ++i) {
        const Repetition& repetition = repetitions[i];
        const ActivityFigures& whole = wholes[i];
        rows.push_back({.repetition = repetition.number, .figures = whole, .share_pct = share_pct(whole, whole)});
        for (const PhaseKind kind : {PhaseKind::raising, PhaseKind::holding, PhaseKind::lowering}) {
            const auto spans = spans_of(muscle.signal, phases, kind, repetition);
            if (!spans.empty()) {
                const ActivityFigures figures = figures_in(muscle, spans);
                rows.push_back({.repetition = repetition.number,
                                .kind = kind,
                                .figures = figures,
                                .share_pct = share_pct(figures, whole)});
            }
        }
    }
    return rows;
}

double mean_in(std::span<const RepetitionActivity> rows, PhaseKind kind) {
    double sum = 0.0;
    double count = 0.0;
    for (const RepetitionActivity& row : rows) {
        if (row.kind == kind && !std::isnan(row.figures.mean)) {
            sum += row.figures.mean;
            count += 1.0;
        }
    }
    return count > 0.0 ? sum / count : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace jointrom
