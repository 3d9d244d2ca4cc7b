#include <jointrom/emg/activity.hpp>

#include "emg/activity_figures.hpp"
#include "emg/activity_frequencies.hpp"
#include "emg/activity_lags.hpp"
#include "emg/activity_pairs.hpp"
#include "emg/activity_reference.hpp"
#include "emg/burst_search.hpp"
#include "emg/swapped_channels.hpp"

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

/// "'Biceps': text" and "'Triceps': text" as one: "'Biceps', 'Triceps': text".
void join_alike(Findings& findings) {
    const auto tail_of = [](const Finding& finding) {
        return finding.text.substr(std::min(finding.text.find("': "), finding.text.size()));
    };
    Findings joined;
    for (Finding& finding : findings) {
        const std::string tail = tail_of(finding);
        const auto same = std::ranges::find_if(joined, [&](const Finding& other) {
            return other.kind == finding.kind && !tail.empty() && tail_of(other) == tail;
        });
        if (same == joined.end()) {
            joined.push_back(std::move(finding));
        } else {
            same->text.insert(same->text.size() - tail.size(),
                              "', " + finding.text.substr(0, finding.text.size() - tail.size()));
        }
    }
    findings = std::move(joined);
}

class Measurement {
  public:
    Measurement(const Recording& recording, const AngleTrace& trace, const MovementPhases& phases,
                const Repetitions& repetitions, const ActivityOptions& options)
        : recording_(recording), trace_(trace), phases_(phases), repetitions_(repetitions), options_(options) {
        if (!options.resisted.empty()) {
            resisted_ = direction_named(options.resisted, trace.motion(), "--resists");
        }
    }

    ActivityResult run() {
        prepare_muscles();
        check_maxima(result_, options_.maxima);
        for (MuscleActivity& muscle : result_.muscles) {
            measure(muscle);
        }
        require_frequencies(options_, result_);
        judge_swapped(trace_.motion(), result_);
        measure_pairs(trace_, repetitions_.rows, options_, result_);
        join_alike(result_.findings);
        return std::move(result_);
    }

  private:
    void prepare_muscles();
    void measure(MuscleActivity& muscle);
    void name_contractions(MuscleActivity& muscle) const;

    const Recording& recording_;
    const AngleTrace& trace_;
    const MovementPhases& phases_;
    const Repetitions& repetitions_;
    const ActivityOptions& options_;
    std::optional<Toward> resisted_;
    ActivityResult result_;
};

void Measurement::prepare_muscles() {
    bool has_channel = false;
    for (const Channel& channel : recording_.channels) {
        if (channel.role != ChannelRole::emg) {
            continue;
        }
        has_channel = true;
        if (auto signal = prepare_emg(channel, options_.emg, result_.findings)) {
            MuscleActivity& muscle = result_.muscles.emplace_back();
            muscle.signal = std::move(*signal);
            muscle.action = find_muscle_action(muscle.signal.name, trace_.motion());
        }
    }
    join_alike(result_.findings);
    if (!has_channel) {
        throw Failure(FailureKind::usage, "emg-missing", "no column looks like an electromyogram",
                      "Name one with --emg NAME=COLUMN; `inspect` lists the columns.",
                      {.file = recording_.source, .line = 0, .column = 0});
    }
    if (result_.muscles.empty()) {
        std::string reasons;
        for (const Finding& finding : result_.findings) {
            if (finding.code() == "emg-unplugged" || finding.code() == "emg-too-short") {
                reasons += (reasons.empty() ? ": " : "; ") + finding.text;
            }
        }
        throw Failure(FailureKind::unreadable_data, "emg-unusable", "no EMG channel can be used" + reasons,
                      "Check electrodes and plugs, or name other columns with --emg NAME=COLUMN.",
                      {.file = recording_.source, .line = 0, .column = 0});
    }
}

void Measurement::measure(MuscleActivity& muscle) {
    const SampleSpan measured = muscle.signal.span(trace_.start(), trace_.time(trace_.size()));
    find_reference(options_, measured, muscle, result_.findings);
    const double factor = std::isnan(muscle.reference) ? 1.0 : 100.0 / muscle.reference;
    const FoundBursts found = find_bursts(muscle.signal, trace_, phases_.phases, options_, result_.findings);
    const MeasuredMuscle figures{
        .signal = muscle.signal, .bursts = found.bursts, .has_bursts = found.could_be_looked_for, .factor = factor};
    muscle.baseline = found.baseline;
    muscle.bursts = burst_rows(muscle.signal, found.bursts, factor, repetitions_.rows);
    const std::vector<ActivityFigures> wholes = whole_repetitions(figures, repetitions_.rows);
    muscle.phases = activity_by_phase(figures, phases_.phases, repetitions_.rows, wholes);
    muscle.repetitions = activity_by_repetition(figures, phases_.phases, repetitions_.rows, wholes);
    muscle.raising_mean = mean_in(muscle.repetitions, PhaseKind::raising);
    muscle.holding_mean = mean_in(muscle.repetitions, PhaseKind::holding);
    muscle.lowering_mean = mean_in(muscle.repetitions, PhaseKind::lowering);
    muscle.rise_to_fall = muscle.lowering_mean > 0.0 ? muscle.raising_mean / muscle.lowering_mean
                                                     : std::numeric_limits<double>::quiet_NaN();
    name_contractions(muscle);
    measure_lags(trace_, repetitions_.rows, muscle);
    measure_frequencies(options_.frequencies, phases_.phases, repetitions_.rows, muscle);
}

/// Of the muscles that work against the load; what their antagonists do has no such name.
void Measurement::name_contractions(MuscleActivity& muscle) const {
    if (!resisted_ || muscle.action == opposite(*resisted_)) {
        return;
    }
    for (PhaseActivity& row : muscle.phases) {
        row.contraction = contraction_in(row.kind, *resisted_);
    }
    for (RepetitionActivity& row : muscle.repetitions) {
        row.contraction = row.kind ? contraction_in(*row.kind, *resisted_) : Contraction::undecided;
    }
}

}  // namespace

ActivityResult muscle_activity(const Recording& recording, const AngleTrace& trace, const MovementPhases& phases,
                               const Repetitions& repetitions, const ActivityOptions& options) {
    return Measurement(recording, trace, phases, repetitions, options).run();
}

}  // namespace jointrom
