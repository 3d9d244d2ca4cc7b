#include <jointrom/movement/range_of_motion.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/movement/angle_uncertainty.hpp>
#include <jointrom/movement/movement_scale.hpp>
#include <jointrom/signal/zero_phase.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace jointrom {
namespace {

// SD of the noise within which samples compete for being the extreme: the span of noise over a few seconds of one
// angle.
constexpr double near_noise_factor = 6.0;
// Rice's rate of crossings of a level u is exp(-u^2 / 2) SD(velocity) / SD / 2 pi; as many independent samples have
// about u / sqrt(2 pi) chances per SD / SD(velocity) to exceed it; u = 1.9 is where a few of them peak.
constexpr double crossing_factor = 0.75;
constexpr double level_noise_factor = 0.5;      // SD of the noise by which the true angle may differ to still compete
constexpr double picked_variance_factor = 0.9;  // 1 / (1 + 0.9 bias^2) is the variance of the largest of 1 to 20 normal
                                                // values, to 0.1; e.g. 0.68 of 2, 0.45 of 5, 0.34 of 10 (tables)
constexpr std::size_t most_turns = 10;          // enough for a mean with a third of the noise
constexpr double alike_noise_factor = 3.0;      // SD of the noise; farther apart, two shapes are not alike
constexpr double edge_noise_factor = 3.0;       // SD of the velocity's noise
constexpr double edge_speed_deg_s = 5.0;        // slower at an edge is no movement on; design choice

SampleSpan piece_around(const AngleTrace& trace, std::size_t sample) {
    return *std::ranges::find_if(trace.pieces(), [&](SampleSpan piece) { return piece.contains(sample); });
}

/// How much less the angle at `sample` would be with the low-pass cut-off doubled.
double change_by_filter_deg(const AngleTrace& trace, std::size_t sample) {
    const double rate_hz = trace.rate().value();
    const Hertz doubled = 2.0 * trace.lowpass();
    const auto reach = static_cast<std::size_t>(std::ceil(4.0 * rate_hz / trace.lowpass().value()));
    SampleSpan around = piece_around(trace, sample);
    around.first = std::max(around.first, sample - std::min(sample, reach));
    around.last = std::min(around.last, sample + reach + 1);
    const auto raw = slice(trace.unfiltered_deg(), around);
    const double with_doubled = 2.0 * doubled.value() < rate_hz
                                    ? lowpass_zero_phase(raw, doubled, trace.rate())[sample - around.first]
                                    : raw[sample - around.first];
    return trace.angle_deg()[sample] - with_doubled;
}

/// What is left of a value when noise is taken off, in squares.
double beyond_noise(double value, double noise_sd) {
    return std::copysign(std::sqrt(std::max(0.0, value * value - noise_sd * noise_sd)), value);
}

/// What the low-pass filter does to the angle at `extreme`: the change when its cut-off is doubled, beyond what noise
/// explains. The turns of repetitions have much the same shape, and their mean has less noise; it is taken unless the
/// extreme differs from it by more than noise explains.
double filter_effect_deg(const AngleTrace& trace, std::size_t extreme, std::span<const std::size_t> turns,
                         const TraceNoise& noise) {
    if (!trace.lowpass().is_set()) {
        return 0.0;
    }
    const double alone = change_by_filter_deg(trace, extreme);
    const double alone_noise = noise.doubled_cutoff_deg;
    if (turns.size() < 2) {
        return beyond_noise(alone, alone_noise);
    }
    const std::size_t step = (turns.size() - 1) / most_turns + 1;
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < turns.size(); i += step) {
        sum += change_by_filter_deg(trace, turns[i]);
        ++count;
    }
    const double mean = sum / count;
    return std::abs(alone - mean) > alike_noise_factor * alone_noise
               ? beyond_noise(alone, alone_noise)
               : beyond_noise(mean, alone_noise / std::sqrt(count));
}

/// How far a parabola through equally spaced samples bends from its middle to its ends.
double bend(std::span<const double> samples) {
    const double half = static_cast<double>(samples.size() - 1) / 2.0;
    const double mean_square = (half + 1.0) / (3.0 * half);  // of times from -1 to 1
    double across = 0.0;
    double along = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double t = (static_cast<double>(i) - half) / half;
        const double square = t * t - mean_square;
        across += square * samples[i];
        along += square * square;
    }
    return std::abs(across / along);
}

/// As how many independent samples, of one true angle, the noise around `sample` competes for the extreme.
double competing_samples(const AngleTrace& trace, std::size_t sample, const TraceNoise& noise) {
    const SampleSpan piece = piece_around(trace, sample);
    const auto angle = trace.angle_deg();
    const auto competes = [&](std::size_t i) {
        return std::abs(angle[i] - angle[sample]) <= near_noise_factor * noise.angle_deg;
    };
    SampleSpan near{sample, sample + 1};
    while (near.first > piece.first && competes(near.first - 1)) {
        --near.first;
    }
    while (near.last < piece.last && competes(near.last)) {
        ++near.last;
    }
    if (near.size() < 3) {
        return 1.0;
    }
    const double level_share = std::sqrt(level_noise_factor * noise.angle_deg / bend(slice(angle, near)));
    const double level_s = trace.duration(near).value() * std::min(1.0, level_share);
    return 1.0 + crossing_factor * level_s * noise.velocity_deg_s / noise.angle_deg;
}

/// What noise does to the largest of several samples: it is too large, but varies less than a single one.
struct PickedNoise {
    double bias_deg = 0.0;
    double sd_deg = 0.0;
};

PickedNoise picked_noise(const AngleTrace& trace, std::size_t sample, const TraceNoise& noise) {
    if (noise.angle_deg <= 0.0) {
        return {};
    }
    const double n = competing_samples(trace, sample, noise);
    const double bias = boost::math::quantile(boost::math::normal(), (n - 0.375) / (n + 0.25));
    return {noise.angle_deg * bias, noise.angle_deg / std::sqrt(1.0 + picked_variance_factor * bias * bias)};
}

struct ExtremeEffects {
    double overshoot_deg = 0.0;  ///< what the filter adds where a fast movement stops
    double rounding_deg = 0.0;   ///< what the filter takes off a short peak
    PickedNoise noise;
};

/// Both ends of an arc: the effects that always act outward or inward add up, the noise adds in squares.
ExtremeEffects operator+(const ExtremeEffects& a, const ExtremeEffects& b) {
    return {a.overshoot_deg + b.overshoot_deg,
            a.rounding_deg + b.rounding_deg,
            {a.noise.bias_deg + b.noise.bias_deg, std::hypot(a.noise.sd_deg, b.noise.sd_deg)}};
}

/// Where the repetitions turn back from the positive direction, or from the negative one.
/// \param direction 1 for the positive direction, -1 for the negative one
std::vector<std::size_t> turns_from(std::span<const Repetition> repetitions, double direction) {
    std::vector<std::size_t> samples;
    for (const Repetition& row : repetitions) {
        if (direction * (row.turn_angle - row.start_angle).value() > 0.0) {
            samples.push_back(row.turn_sample);
        }
    }
    return samples;
}

/// \param direction 1 at the largest angle, -1 at the smallest
ExtremeEffects effects_at(const AngleTrace& trace, std::size_t sample, double direction,
                          std::span<const Repetition> repetitions, const TraceNoise& noise) {
    const double outward_deg = direction * filter_effect_deg(trace, sample, turns_from(repetitions, direction), noise);
    return {std::max(0.0, outward_deg), std::max(0.0, -outward_deg), picked_noise(trace, sample, noise)};
}

void add_if_any(Budget& budget, const char* input, double u) {
    if (u > 0.0) {
        budget.add({.input = input, .u = u});
    }
}

void add_noise(Budget& budget, const ExtremeEffects& effects) {
    add_if_any(budget, "noise left by the low-pass filter", effects.noise.sd_deg);
}

void add_shifts(Budget& budget, const ExtremeEffects& effects) {
    // Both act outward, so they add up.
    add_if_any(budget,
               effects.overshoot_deg > 0.0 ? "farthest of noisy samples, and overshoot of the low-pass filter"
                                           : "picking the farthest of noisy samples",
               effects.noise.bias_deg + effects.overshoot_deg);
    add_if_any(budget, "peak rounded off by the low-pass filter", effects.rounding_deg);
}

Extreme extreme_at(const AngleTrace& trace, std::size_t sample, double direction, const TraceNoise& noise,
                   const ExtremeEffects& effects) {
    const SampleSpan piece = piece_around(trace, sample);
    const double outward = direction * trace.velocity_deg_s()[sample];
    const double still = std::max(edge_speed_deg_s, edge_noise_factor * noise.velocity_deg_s);
    const bool came_in = sample == piece.first && -outward > still;
    const bool goes_on = sample + 1 == piece.last && outward > still;
    Extreme extreme{.angle = Degrees(trace.angle_deg()[sample]),
                    .time = trace.time(sample),
                    .sample = sample,
                    .at_edge = came_in || goes_on,
                    .budget = angle_budget(trace, Degrees(trace.angle_deg()[sample]), MomentaryNoise::left_out)};
    add_noise(extreme.budget, effects);
    add_shifts(extreme.budget, effects);
    return extreme;
}

RepeatedValue repeated_value(std::span<const double> values, Budget sensor, const ExtremeEffects& effects) {
    const Description values_in_all = describe(values);
    const double mean = values_in_all.mean;
    const double sd = values_in_all.sd;
    RepeatedValue result{.mean = Degrees(mean), .sd = Degrees(sd), .count = values.size(), .budget = std::move(sensor)};
    const auto n = static_cast<double>(values.size());
    if (values.size() > 1) {
        result.budget.add(
            {.input = "spread between repetitions", .u = sd / std::sqrt(n), .degrees_of_freedom = n - 1.0});
    } else {
        add_noise(result.budget, effects);
    }
    add_shifts(result.budget, effects);
    return result;
}

struct Effects {
    ExtremeEffects positive;
    ExtremeEffects negative;
};

void add_means(const AngleTrace& trace, std::span<const Repetition> repetitions, const Effects& effects,
               RangeOfMotion& result) {
    std::vector<double> highest, lowest, arcs;
    for (const Repetition& row : repetitions) {
        highest.push_back(std::max({row.start_angle, row.turn_angle, row.end_angle}).value());
        lowest.push_back(std::min({row.start_angle, row.turn_angle, row.end_angle}).value());
        arcs.push_back(row.arc.value());
    }
    const auto mean = [](const std::vector<double>& values) { return Degrees(describe(values).mean); };
    result.mean_positive =
        repeated_value(highest, angle_budget(trace, mean(highest), MomentaryNoise::left_out), effects.positive);
    result.mean_negative =
        repeated_value(lowest, angle_budget(trace, mean(lowest), MomentaryNoise::left_out), effects.negative);
    result.mean_arc = repeated_value(arcs, arc_budget(trace, mean(arcs), MomentaryNoise::left_out),
                                     effects.positive + effects.negative);
}

void add_held(std::span<const StillPosture> postures, RangeOfMotion& result) {
    if (postures.empty()) {
        return;
    }
    const auto [lowest, highest] = std::ranges::minmax_element(postures, {}, &StillPosture::mean);
    result.held_negative = *lowest;
    result.held_positive = *highest;
}

void report_edge(const Extreme& extreme, const std::string& direction, Findings& findings) {
    if (extreme.at_edge) {
        findings.emplace_back("extreme-at-edge", "the joint was still moving at the extreme of " + direction + ", " +
                                                     fixed_text(extreme.angle.value(), 1) + " deg at " +
                                                     fixed_text(extreme.time.value(), 2) + " s");
    }
}

}  // namespace

RangeOfMotion range_of_motion(const AngleTrace& trace, std::span<const Repetition> repetitions,
                              std::span<const StillPosture> postures) {
    const TraceNoise noise = trace_noise(trace);
    const auto angle = trace.angle_deg();
    std::size_t highest = trace.pieces().front().first;
    std::size_t lowest = highest;
    for (std::size_t i = highest; i < angle.size(); ++i) {
        highest = angle[i] > angle[highest] ? i : highest;  // false for a missing sample
        lowest = angle[i] < angle[lowest] ? i : lowest;
    }
    const Effects effects{effects_at(trace, highest, 1.0, repetitions, noise),
                          effects_at(trace, lowest, -1.0, repetitions, noise)};
    RangeOfMotion result;
    result.positive = extreme_at(trace, highest, 1.0, noise, effects.positive);
    result.negative = extreme_at(trace, lowest, -1.0, noise, effects.negative);
    result.arc = result.positive.angle - result.negative.angle;
    result.arc_budget = arc_budget(trace, result.arc, MomentaryNoise::left_out);
    add_noise(result.arc_budget, effects.positive + effects.negative);
    add_shifts(result.arc_budget, effects.positive + effects.negative);
    add_held(postures, result);
    if (!repetitions.empty()) {
        add_means(trace, repetitions, effects, result);
    }
    report_edge(result.positive, trace.motion().positive, result.findings);
    report_edge(result.negative, trace.motion().negative, result.findings);
    return result;
}

}  // namespace jointrom
