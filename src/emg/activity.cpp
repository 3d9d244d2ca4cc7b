#include <jointrom/emg/activity.hpp>

#include "emg/activity_figures.hpp"
#include "emg/activity_lags.hpp"
#include "emg/activity_pairs.hpp"
#include "emg/burst_search.hpp"
#include "emg/longest_run.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/signal/moving_window.hpp>

#include <fmt/format.h>

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
        for (const MuscleMaximum& maximum : options_.maxima) {
            check(maximum);
        }
        for (MuscleActivity& muscle : result_.muscles) {
            measure(muscle);
        }
        refuse_without_frequencies();
        judge_swapped();
        measure_pairs(trace_, repetitions_.rows, options_, result_);
        join_alike(result_.findings);
        return std::move(result_);
    }

  private:
    void note(std::string_view code, std::string text) { result_.findings.emplace_back(code, std::move(text)); }
    void prepare_muscles();
    void check(const MuscleMaximum& maximum) const;
    void normalise(MuscleActivity& muscle, SampleSpan measured);
    void measure(MuscleActivity& muscle);
    void name_contractions(MuscleActivity& muscle) const;
    void measure_frequencies(MuscleActivity& muscle);
    [[nodiscard]] std::vector<FrequencyRow> frequency_rows() const;
    void refuse_without_frequencies();
    void judge_swapped();

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

void Measurement::check(const MuscleMaximum& maximum) const {
    if (!maximum.muscle.empty()) {
        (void)muscle_named(result_, maximum.muscle, "--mvc");
    }
    if (!(maximum.value > 0.0) || !std::isfinite(maximum.value)) {
        throw Failure(FailureKind::usage, "mvc-invalid",
                      fmt::format("--mvc: a maximum of {:g}{}{} cannot be compared with", maximum.value,
                                  maximum.muscle.empty() ? "" : " for ", maximum.muscle),
                      "It is the mean rectified activity of a maximal contraction, in the channel's unit, above 0.");
    }
}

void Measurement::normalise(MuscleActivity& muscle, SampleSpan measured) {
    const EmgSignal& signal = muscle.signal;
    switch (options_.normalisation) {
    case Normalisation::none:
        muscle.unit = signal.unit.empty() ? "reading" : signal.unit;
        return;
    case Normalisation::peak:
        muscle.unit = "% of peak";
        muscle.reference = peak_of(signal, measured);
        return;
    case Normalisation::mvc:
        break;
    }
    const auto own = std::ranges::find_if(
        options_.maxima, [&](const MuscleMaximum& maximum) { return edit_distance(maximum.muscle, signal.name) == 0; });
    const auto any =
        own == options_.maxima.end() ? std::ranges::find(options_.maxima, "", &MuscleMaximum::muscle) : own;
    if (any == options_.maxima.end()) {
        throw Failure(FailureKind::usage, "mvc-missing",
                      fmt::format("--mvc: no maximum is known for '{}'", signal.name),
                      fmt::format("Add --mvc \"{}=VALUE\", a recording of its maximal contraction, or use "
                                  "--normalise peak.",
                                  signal.name));
    }
    muscle.unit = "% of MVC";
    muscle.reference = any->value;
    constexpr double clearly_more = 1.2;  // the envelope's peak may exceed a mean over half a second
    if (const double peak = peak_of(signal, measured); peak > clearly_more * muscle.reference) {
        note("mvc-exceeded",
             fmt::format("'{}': reaches {:.4g} % of its maximum", signal.name, 100.0 * peak / muscle.reference));
    }
}

void Measurement::measure(MuscleActivity& muscle) {
    const SampleSpan measured = muscle.signal.span(trace_.start(), trace_.time(trace_.size()));
    normalise(muscle, measured);
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
    measure_frequencies(muscle);
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
        row.contraction = row.kind ? contraction_in(*row.kind, *resisted_) : MuscleContraction::none;
    }
}

std::vector<FrequencyRow> Measurement::frequency_rows() const {
    constexpr std::size_t enough_repetitions = 3;
    constexpr double long_hold_s = 3.0;
    const Phase* hold = nullptr;
    for (const Phase& phase : phases_.phases) {
        if (phase.kind == PhaseKind::holding && (hold == nullptr || phase.duration() > hold->duration())) {
            hold = &phase;
        }
    }
    std::vector<FrequencyRow> rows;
    if (repetitions_.rows.size() < enough_repetitions && hold != nullptr && hold->duration().value() >= long_hold_s) {
        for (Seconds from = hold->start; from + Seconds(1.0) <= hold->end; from = from + Seconds(1.0)) {
            rows.push_back({.start = from, .end = from + Seconds(1.0)});
        }
        return rows;
    }
    for (const Repetition& repetition : repetitions_.rows) {
        rows.push_back({.repetition = repetition.number, .start = repetition.start, .end = repetition.end});
    }
    return rows;
}

void Measurement::measure_frequencies(MuscleActivity& muscle) {
    const EmgSignal& signal = muscle.signal;
    if (options_.frequencies == FrequencyWish::none || !signal.has_frequencies()) {
        return;
    }
    std::vector<double> time_s;
    std::vector<double> medians;
    std::vector<double> means;
    muscle.frequencies = frequency_rows();
    for (FrequencyRow& row : muscle.frequencies) {
        row.frequencies = emg_frequencies(slice(signal.samples, signal.span(row.start, row.end)), signal.rate);
        time_s.push_back(0.5 * (row.start + row.end).value());
        medians.push_back(row.frequencies.median.value());
        means.push_back(row.frequencies.mean.value());
    }
    muscle.median_trend = trend_of(time_s, medians);
    muscle.mean_trend = trend_of(time_s, means);
}

void Measurement::refuse_without_frequencies() {
    const bool are_required = options_.frequencies == FrequencyWish::required;
    if (!are_required && options_.onset != OnsetSignal::teager_kaiser) {
        return;
    }
    const auto can = [](const MuscleActivity& muscle) { return muscle.signal.has_frequencies(); };
    if (std::ranges::none_of(result_.muscles, can)) {
        const EmgSignal& signal = result_.muscles.front().signal;
        throw Failure(FailureKind::usage, "emg-rate-too-low",
                      fmt::format("{} needs a raw electromyogram at 1000 Hz or more; '{}' is {} at {:.4g} Hz",
                                  are_required ? "--frequencies" : "--onset teager-kaiser", signal.name,
                                  name_of(signal.form), signal.rate.value()),
                      "What lies above half the logger's rate is folded down and cannot be told apart again.");
    }
    for (const MuscleActivity& muscle : result_.muscles) {
        if (!can(muscle)) {
            note("emg-no-frequencies", fmt::format("'{}': {} at {:.4g} Hz", muscle.signal.name,
                                                   name_of(muscle.signal.form), muscle.signal.rate.value()));
        }
    }
}

/// A muscle works hardest where it shortens. When those named for a direction work clearly more in the other, channels
/// are swapped or the sign of the angle is wrong.
void Measurement::judge_swapped() {
    constexpr double clearly = 0.1;
    constexpr double clearly_alone = 0.33;
    std::string names;
    std::size_t known = 0;
    double least = 1.0;
    for (const MuscleActivity& muscle : result_.muscles) {
        const double sum = muscle.raising_mean + muscle.lowering_mean;
        if (!muscle.action || !(sum > 0.0)) {
            continue;
        }
        const double more_raising = (muscle.raising_mean - muscle.lowering_mean) / sum;
        least = std::min(least, *muscle.action == Toward::positive ? -more_raising : more_raising);
        ++known;
        names += fmt::format("{}'{}' works {:.1f} times as much toward {}", names.empty() ? "" : ", ",
                             muscle.signal.name, std::max(muscle.rise_to_fall, 1.0 / muscle.rise_to_fall),
                             more_raising > 0.0 ? trace_.motion().positive : trace_.motion().negative);
    }
    if (known > 0 && least > (known > 1 ? clearly : clearly_alone)) {
        note("emg-swapped", names + ", against what its name says");
    }
}

}  // namespace

double maximum_of(const EmgSignal& signal, Seconds window) {
    const auto samples = static_cast<std::size_t>(std::max(1.0, std::round(window.value() * signal.rate.value())));
    std::vector<double> magnitude(signal.samples.size());
    std::ranges::transform(signal.samples, magnitude.begin(), [](double x) { return std::abs(x); });
    double highest = std::numeric_limits<double>::quiet_NaN();
    for (const double mean : moving_mean(magnitude, samples, WindowEnds::missing)) {
        highest = std::isnan(mean) || mean <= highest ? highest : mean;
    }
    return highest;
}

ActivityResult muscle_activity(const Recording& recording, const AngleTrace& trace, const MovementPhases& phases,
                               const Repetitions& repetitions, const ActivityOptions& options) {
    return Measurement(recording, trace, phases, repetitions, options).run();
}

}  // namespace jointrom
