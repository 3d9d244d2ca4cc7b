#include "emg/activity_pairs.hpp"

#include "emg/activity_lags.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

std::vector<std::pair<std::string, std::string>> pairs_of(const ActivityOptions& options, ActivityResult& result) {
    if (!options.pairs.empty()) {
        return options.pairs;
    }
    const auto& muscles = result.muscles;
    if (muscles.size() != 2 || !muscles[0].action || !muscles[1].action || muscles[0].action == muscles[1].action) {
        return {};
    }
    const bool first_moves = *muscles[0].action == Toward::positive;
    const std::string& mover = muscles[first_moves ? 0 : 1].signal.name;
    const std::string& antagonist = muscles[first_moves ? 1 : 0].signal.name;
    result.findings.emplace_back("pair-assumed", fmt::format("'{}' and its antagonist '{}'", mover, antagonist));
    return {{mover, antagonist}};
}

/// Two envelopes in percent, at the times of the first one's samples.
class Pair {
  public:
    Pair(const MuscleActivity& mover, const MuscleActivity& antagonist, SampleSpan measured, SampleSpan other_measured)
        : mover_(mover), first_(measured.first) {
        const double mover_factor = factor_of(mover, measured);
        const double antagonist_factor = factor_of(antagonist, other_measured);
        for (std::size_t i = measured.first; i < measured.last; ++i) {
            a_.push_back(mover_factor * mover.signal.envelope[i]);
            b_.push_back(antagonist_factor * envelope_at(antagonist.signal, mover.signal.time(i)));
        }
    }

    [[nodiscard]] CoContraction whole() const { return co_contraction(a_, b_); }
    [[nodiscard]] CoContraction between(Seconds from, Seconds to) const {
        SampleSpan span = mover_.signal.span(from, to);
        span = {std::max(span.first, first_) - first_, std::min(span.last, first_ + a_.size()) - first_};
        return span.empty() ? CoContraction{} : co_contraction(slice(a_, span), slice(b_, span));
    }

  private:
    static double factor_of(const MuscleActivity& muscle, SampleSpan measured) {
        return 100.0 / (std::isnan(muscle.reference) ? peak_of(muscle.signal, measured) : muscle.reference);
    }

    const MuscleActivity& mover_;
    std::size_t first_;
    std::vector<double> a_, b_;
};

}  // namespace

const MuscleActivity& muscle_named(const ActivityResult& result, std::string_view name, std::string_view option) {
    std::vector<std::string_view> names;
    for (const MuscleActivity& muscle : result.muscles) {
        names.emplace_back(muscle.signal.name);
        if (edit_distance(name, muscle.signal.name) == 0) {
            return muscle;
        }
    }
    const auto close = nearest(name, names);
    std::string list;
    for (const std::string_view known : names) {
        list += fmt::format("{}'{}'", list.empty() ? "" : ", ", known);
    }
    throw Failure(FailureKind::usage, "muscle-unknown", fmt::format("{}: no muscle is called '{}'", option, name),
                  close ? fmt::format("Did you mean '{}'?", *close) : fmt::format("There are {}.", list));
}

double peak_of(const EmgSignal& signal, SampleSpan span) {
    double peak = std::numeric_limits<double>::quiet_NaN();
    for (const double value : slice(signal.envelope, span)) {
        peak = std::isnan(value) || value <= peak ? peak : value;
    }
    return peak;
}

void measure_pairs(const AngleTrace& trace, std::span<const Repetition> repetitions, const ActivityOptions& options,
                   ActivityResult& result) {
    const Seconds end = trace.time(trace.size());
    for (const auto& [mover_name, antagonist_name] : pairs_of(options, result)) {
        const MuscleActivity& mover = muscle_named(result, mover_name, "--pair");
        const MuscleActivity& antagonist = muscle_named(result, antagonist_name, "--pair");
        if (&mover == &antagonist) {
            throw Failure(FailureKind::usage, "pair-same",
                          fmt::format("--pair: '{}' cannot be its own antagonist", mover.signal.name),
                          "Name two muscles, as --pair MOVER,ANTAGONIST.");
        }
        const Pair pair(mover, antagonist, mover.signal.span(trace.start(), end),
                        antagonist.signal.span(trace.start(), end));
        PairActivity activity{.mover = mover.signal.name,
                              .antagonist = antagonist.signal.name,
                              .unit = std::isnan(mover.reference) ? "% of peak" : mover.unit,
                              .rows = {}};
        for (const Repetition& repetition : repetitions) {
            activity.rows.push_back({repetition.number, pair.between(repetition.start, repetition.end)});
        }
        activity.rows.push_back({std::nullopt, pair.whole()});
        result.pairs.push_back(std::move(activity));
    }
}

}  // namespace jointrom
