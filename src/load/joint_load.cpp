#include "load_budget.hpp"

#include <jointrom/load/joint_load.hpp>
#include <jointrom/movement/angle_uncertainty.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace jointrom {
namespace {

constexpr double radians_per_deg = std::numbers::pi / 180.0;
constexpr double clear_share = 0.9;  // design choice: from here on one kind names the whole

/// Parts that are opposite in sign.
struct Shares {
    double positive = 0.0;
    double negative = 0.0;  // 0 or less

    void add(double value) { (value > 0.0 ? positive : negative) += value; }
    [[nodiscard]] bool mostly_positive() const { return positive >= clear_share * (positive - negative); }
    [[nodiscard]] bool mostly_negative() const { return -negative >= clear_share * (positive - negative); }
};

std::size_t largest_in_size(std::span<const double> values, SampleSpan span) {
    std::size_t largest = span.first;
    for (std::size_t i = span.first; i < span.last; ++i) {
        if (std::isnan(values[largest]) || std::abs(values[i]) > std::abs(values[largest])) {
            largest = i;
        }
    }
    return largest;
}

double mean_of(std::span<const double> values) {
    double sum = 0.0;
    for (const double value : values) {
        sum += value;
    }
    return sum / static_cast<double>(values.size());
}

/// Independent values that the noise of the acceleration takes in a stretch: two a period of the low-pass cut-off.
double chances_of_noise(const AngleTrace& trace, const LoadSeries& series, SampleSpan span) {
    std::size_t accelerated = 0;
    for (std::size_t i = span.first; i < span.last; ++i) {
        accelerated += series.moment_nm[i] == series.gravity_nm[i] || std::isnan(series.moment_nm[i]) ? 0U : 1U;
    }
    const double share = trace.lowpass().is_set() ? std::min(1.0, 2.0 * (trace.lowpass() / trace.rate())) : 1.0;
    return share * static_cast<double>(accelerated);
}

/// Whether the joint moves, sample by sample; everywhere without phases.
std::vector<bool> moving_samples(std::size_t count, std::span<const Phase> phases) {
    std::vector<bool> moving(count, true);
    for (const Phase& phase : phases) {
        if (phase.kind == PhaseKind::rest || phase.kind == PhaseKind::holding) {
            std::fill(moving.begin() + static_cast<std::ptrdiff_t>(phase.span.first),
                      moving.begin() + static_cast<std::ptrdiff_t>(phase.span.last), false);
        }
    }
    return moving;
}

/// The mean size of the moment counts, which a single noisy sample does not lift above the uncertainty.
MuscleGroup group_of(std::span<const double> moments_nm, const Budget& budget) {
    Shares impulse;
    std::size_t count = 0;
    for (const double moment : moments_nm) {
        if (!std::isnan(moment)) {
            impulse.add(moment);
            ++count;
        }
    }
    const double mean_size_nm = (impulse.positive - impulse.negative) / static_cast<double>(count);
    if (!(mean_size_nm > budget.expanded_uncertainty())) {
        return MuscleGroup::undecided;
    }
    return impulse.mostly_positive()   ? MuscleGroup::positive
           : impulse.mostly_negative() ? MuscleGroup::negative
                                       : MuscleGroup::both;
}

Contraction contraction_of(PhaseKind kind, const SpanLoad& load) {
    if (load.group == MuscleGroup::undecided) {
        return Contraction::undecided;
    }
    if (kind == PhaseKind::rest || kind == PhaseKind::holding) {
        return Contraction::isometric;
    }
    const Shares work{load.concentric_work_j, load.eccentric_work_j};
    return work.mostly_positive()   ? Contraction::concentric
           : work.mostly_negative() ? Contraction::eccentric
                                    : Contraction::mixed;
}

void judge(const AngleTrace& trace, const LoadModel& model, JointLoad& load) {
    constexpr double slow_rate_hz = 20.0;  // design choice: a movement of half a second has ten samples
    constexpr double noisy_share = 0.1;    // design choice
    const double noise_nm = model.inertia_kg_m2() * radians_per_deg * load.series.acceleration_u_deg_s2;
    const double peak_nm = std::abs(load.whole.peak_moment_nm);
    if (model.with_inertia && trace.rate() < Hertz(slow_rate_hz)) {
        load.findings.emplace_back("acceleration-doubtful", fmt::format("at {:.4g} samples per second the acceleration "
                                                                        "of a movement is hardly seen",
                                                                        trace.rate().value()));
    } else if (model.with_inertia && noise_nm > noisy_share * peak_nm) {
        load.findings.emplace_back("acceleration-doubtful",
                                   fmt::format("noise in the acceleration makes {:.2g} N m of the moment, against a "
                                               "peak of {:.2g} N m",
                                               noise_nm, peak_nm));
    }
    if (trace.pieces().size() > 1) {
        const std::size_t gaps = trace.pieces().size() - 1;
        load.findings.emplace_back("load-gap",
                                   fmt::format("the angle has {}; the work of the whole recording is not given",
                                               gaps == 1 ? "a gap" : fmt::format("{} gaps", gaps)));
    }
}

}  // namespace

std::string name_of(MuscleGroup group, const JointMotion& motion) {
    switch (group) {
    case MuscleGroup::positive:
        return muscles_toward(motion.positive);
    case MuscleGroup::negative:
        return muscles_toward(motion.negative);
    case MuscleGroup::both:
        return fmt::format("{} and {}", muscles_toward(motion.positive), muscles_toward(motion.negative));
    case MuscleGroup::undecided:
        break;
    }
    return {};
}

LoadSeries load_series(const AngleTrace& trace, const LoadModel& model, std::span<const Phase> phases) {
    const std::vector<bool> moving = moving_samples(trace.size(), phases);
    const std::size_t count = trace.size();
    const double horizontal_nm = model.horizontal_moment_nm();
    const double inertia = model.with_inertia ? model.inertia_kg_m2() : 0.0;
    LoadSeries series{std::vector<double>(count), std::vector<double>(count), std::vector<double>(count),
                      std::vector<double>(count), acceleration_noise_deg_s2(trace)};
    for (std::size_t i = 0; i < count; ++i) {
        const double hanging = model.hanging_deg(Degrees(trace.angle_deg()[i])) * radians_per_deg;
        const double speed = trace.velocity_deg_s()[i] * radians_per_deg;
        series.gravity_nm[i] = horizontal_nm * std::sin(hanging);
        series.moment_nm[i] =
            series.gravity_nm[i] + (moving[i] ? inertia * trace.acceleration_deg_s2(i) * radians_per_deg : 0.0);
        series.power_w[i] = series.moment_nm[i] * speed;
        series.energy_j[i] = horizontal_nm * (1.0 - std::cos(hanging)) + inertia * speed * speed / 2.0;
    }
    return series;
}

SpanLoad load_over(const AngleTrace& trace, const LoadModel& model, const LoadSeries& series, SampleSpan span) {
    assert(!span.empty() && span.last <= trace.size());
    const std::span<const double> moments = slice(series.moment_nm, span);
    SpanLoad load{.span = span};
    load.mean_moment_nm = mean_of(moments);
    load.peak_sample = largest_in_size(series.moment_nm, span);
    load.peak_moment_nm = series.moment_nm[load.peak_sample];
    if (std::isnan(load.peak_moment_nm)) {
        return load;
    }
    load.peak_budget = moment_budget(trace, model, series, load.peak_sample, chances_of_noise(trace, series, span));
    load.peak_power_w = series.power_w[largest_in_size(series.power_w, span)];
    load.group = group_of(moments, load.peak_budget);

    const std::span<const double> energy = series.energy_j;
    const std::size_t last = span.last < energy.size() && !std::isnan(energy[span.last]) ? span.last : span.last - 1;
    Shares work;
    for (std::size_t i = span.first; i < last; ++i) {
        work.add(energy[i + 1] - energy[i]);
    }
    if (std::isnan(work.negative)) {  // a gap: nothing compares with NaN, so it went there
        return load;
    }
    load.concentric_work_j = work.positive;
    load.eccentric_work_j = work.negative;
    load.work_j = energy[last] - energy[span.first];
    load.mean_power_w = load.work_j / trace.duration(span).value();
    load.work_budget = work_budget(trace, model, span.first, last);
    return load;
}

JointLoad joint_load(const AngleTrace& trace, const LoadModel& model, std::span<const Phase> phases,
                     std::span<const Repetition> repetitions) {
    JointLoad result{.series = load_series(trace, model, phases)};
    const auto over = [&](SampleSpan span) { return load_over(trace, model, result.series, span); };
    for (const Phase& phase : phases) {
        PhaseLoad row{.phase = phase, .repetition = std::nullopt, .load = over(phase.span)};
        if (const Repetition* repetition = repetition_with(phase, repetitions)) {
            row.repetition = repetition->number;
        }
        row.contraction = contraction_of(phase.kind, row.load);
        result.phases.push_back(std::move(row));
    }
    for (const Repetition& repetition : repetitions) {
        result.repetitions.push_back({.repetition = repetition, .load = over(repetition.span)});
    }
    result.whole = over({0, trace.size()});
    judge(trace, model, result);
    return result;
}

}  // namespace jointrom
