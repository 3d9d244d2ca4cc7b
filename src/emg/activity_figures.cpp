#include "emg/activity_figures.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

std::size_t overlap(SampleSpan a, SampleSpan b) {
    const std::size_t first = std::max(a.first, b.first);
    const std::size_t last = std::min(a.last, b.last);
    return last > first ? last - first : 0;
}

double share_pct(const ActivityFigures& part, const ActivityFigures& whole) {
    return whole.integral > 0.0 ? 100.0 * part.integral / whole.integral : std::numeric_limits<double>::quiet_NaN();
}

/// The stretches of `kind` within a repetition, in samples of the signal.
std::vector<SampleSpan> spans_of(const EmgSignal& signal, std::span<const Phase> phases, PhaseKind kind,
                                 const Repetition& repetition) {
    std::vector<SampleSpan> spans;
    for (const Phase& phase : phases) {
        const Seconds from = std::max(phase.start, repetition.start);
        const Seconds to = std::min(phase.end, repetition.end);
        if (phase.kind == kind && from < to) {
            spans.push_back(signal.span(from, to));
        }
    }
    return spans;
}

const Repetition* repetition_with(const Phase& phase, std::span<const Repetition> repetitions) {
    const Seconds middle = 0.5 * (phase.start + phase.end);
    const auto found = std::ranges::find_if(
        repetitions, [&](const Repetition& row) { return row.start <= middle && middle < row.end; });
    return found == repetitions.end() ? nullptr : &*found;
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
        for (const SampleSpan burst : muscle.bursts) {
            active += overlap(burst, span);
        }
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

std::vector<PhaseActivity> activity_by_phase(const MeasuredMuscle& muscle, std::span<const Phase> phases,
                                             std::span<const Repetition> repetitions) {
    std::vector<PhaseActivity> rows;
    for (const Phase& phase : phases) {
        const Repetition* repetition = repetition_with(phase, repetitions);
        const std::array span{muscle.signal.span(phase.start, phase.end)};
        PhaseActivity row{
            .kind = phase.kind, .start = phase.start, .end = phase.end, .figures = figures_in(muscle, span)};
        if (repetition != nullptr) {
            const std::array whole{muscle.signal.span(repetition->start, repetition->end)};
            row.repetition = repetition->number;
            row.share_pct = share_pct(row.figures, figures_in(muscle, whole));
        }
        rows.push_back(row);
    }
    return rows;
}

std::vector<RepetitionActivity> activity_by_repetition(const MeasuredMuscle& muscle, std::span<const Phase> phases,
                                                       std::span<const Repetition> repetitions) {
    std::vector<RepetitionActivity> rows;
    for (const Repetition& repetition : repetitions) {
        const std::array whole_span{muscle.signal.span(repetition.start, repetition.end)};
        const ActivityFigures whole = figures_in(muscle, whole_span);
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
