#include <jointrom/angle/prepare_angle.hpp>

#include "angle_trace_builder.hpp"
#include "percentile_range.hpp"
#include "sensor_series.hpp"

#include <jointrom/angle/direction.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/finite_runs.hpp>
#include <jointrom/signal/noise_level.hpp>
#include <jointrom/signal/residual_analysis.hpp>
#include <jointrom/signal/zero_phase.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace jointrom {
namespace {

constexpr double highest_cutoff_per_rate = 0.4;
constexpr double full_turn_deg = 360.0;

/// The cut-off to use; unset for none.
Hertz chosen_cutoff(const EvenSeries& series, const LowpassChoice& choice, Findings& findings) {
    if (choice.rule == LowpassChoice::Rule::off) {
        return {};
    }
    if (!(choice.cutoff.value() > 0.0)) {
        throw Failure(FailureKind::usage, "cutoff-not-positive",
                      "the low-pass cut-off is " + shortest_text(choice.cutoff.value()) + " Hz",
                      "Give a cut-off above 0 Hz, auto or off to --lowpass-hz.");
    }
    Hertz cutoff = choice.cutoff;
    if (choice.rule == LowpassChoice::Rule::automatic) {
        cutoff = residual_analysis(series.samples, series.rate).cutoff.value_or(choice.cutoff);
    }
    if (cutoff.value() >= highest_cutoff_per_rate * series.rate.value()) {
        findings.emplace_back("filter-lowered", "a low-pass at " + shortest_text(cutoff.value()) +
                                                    " Hz needs more than " + fixed_text(series.rate.value(), 1) +
                                                    " samples a second; no filter was applied");
        return {};
    }
    return cutoff;
}

std::vector<double> filtered(const EvenSeries& series, Hertz cutoff) {
    return map_finite_runs(
        series.samples, [&](std::span<const double> piece) { return lowpass_zero_phase(piece, cutoff, series.rate); });
}

double rms_difference(std::span<const double> a, std::span<const double> b) {
    double sum = 0.0, count = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (std::isfinite(a[i])) {
            sum += (a[i] - b[i]) * (a[i] - b[i]);
            count += 1.0;
        }
    }
    return count > 0.0 ? std::sqrt(sum / count) : 0.0;
}

/// What the filter took out; without a filter, the noise in the neutral posture, or what the recording itself shows.
Degrees noise_of(const AngleTraceParts& parts, const Neutral& neutral) {
    if (parts.lowpass.is_set()) {
        return Degrees(rms_difference(parts.unfiltered_deg, parts.angle_deg));
    }
    if (neutral.noise.is_set()) {
        return neutral.noise;
    }
    const double noise_deg = noise_sd(parts.unfiltered_deg);
    return Degrees(std::isfinite(noise_deg) ? noise_deg : 0.0);
}

TraceUncertainty uncertainty_of(const PreparationOptions& options, const Neutral& neutral, Degrees zero, int sign) {
    TraceUncertainty result;
    const double assumed_deg = rectangular_u(options.sensor_error.value());
    result.linearity = Degrees(assumed_deg);
    // Where the sensor's zero was kept, how far it is from the neutral posture is as uncertain as the sensor itself.
    result.zero = neutral.u.is_set() ? neutral.u : Degrees(assumed_deg);
    result.zero_dof = neutral.degrees_of_freedom;
    result.zero_is_read = neutral.u.is_set();
    if (!options.calibration || options.calibration->points.size() == 1) {
        return result;
    }
    const Calibration& calibration = *options.calibration;
    result.linearity_is_measured = !std::isnan(calibration.residual_sd_deg);
    if (result.linearity_is_measured) {
        result.linearity = Degrees(calibration.residual_sd_deg);
        result.linearity_dof = std::max(1.0, static_cast<double>(calibration.points.size()) - 2.0);
    }
    result.gain_is_measured = !std::isnan(calibration.u_gain_deg_per_unit);
    if (!result.gain_is_measured) {
        return result;
    }
    result.gain_relative = calibration.u_gain_deg_per_unit / std::abs(calibration.gain_deg_per_unit);
    result.gain_dof = calibration.degrees_of_freedom;
    const bool calibrated_on_a_joint = !calibration.joint.empty();
    if (!neutral.u.is_set() && calibrated_on_a_joint) {
        const LineCentre centre = line_centre(calibration);
        result.zero = Degrees(centre.angle_deg.u);
        result.zero_dof = calibration.degrees_of_freedom;
        result.zero_is_calibrated = true;
        result.gain_centre = Degrees(sign * (centre.angle_deg.value - zero.value()));
    }
    return result;
}

/// Whole turns nearer: a sensor that reads 358 in a posture of -2.
double nearest_turn_deg(double zero_deg, Degrees low, Degrees high) {
    const double middle_deg = 0.5 * (low + high).value() - zero_deg;
    return std::abs(middle_deg) > 270.0 ? zero_deg + full_turn_deg * std::round(middle_deg / full_turn_deg) : zero_deg;
}

Direction find_direction(const std::optional<Direction>& stated, const Neutral& neutral, Degrees low, Degrees high,
                         const JointMotion& motion, Findings& findings) {
    if (stated) {
        return *stated;
    }
    if (neutral.sign != 0) {
        return {neutral.sign, neutral.sign > 0 ? "sign kept" : "sign turned"};
    }
    return infer_direction(motion, low, high, findings);
}

/// Compares the first with the last posture held, when the last is near enough to be the same one.
void judge_resting_level(std::span<const double> angle_deg, Hertz rate, Findings& findings) {
    const std::vector<SampleSpan> stretches = still_stretches(angle_deg, rate);
    if (stretches.size() < 2) {
        return;
    }
    const HeldLevel first = held_level(angle_deg, stretches.front());
    const HeldLevel last = held_level(angle_deg, stretches.back());
    const auto [low, high] = percentile_range(angle_deg);
    const double worth_saying_deg = std::max(5.0, 3.0 * std::max(first.sd, last.sd));
    const double another_posture_deg = std::max(15.0, 0.25 * (high - low).value());
    const double change_deg = std::abs(last.mean - first.mean);
    if (change_deg > worth_saying_deg && change_deg < another_posture_deg) {
        findings.emplace_back("resting-level-drift", "the first posture held is at " + fixed_text(first.mean, 1) +
                                                         " deg, the last at " + fixed_text(last.mean, 1) + " deg");
    }
}

std::vector<double> anatomical(std::span<const double> sensor_deg, Degrees zero, int sign) {
    std::vector<double> angle_deg(sensor_deg.size());
    std::ranges::transform(sensor_deg, angle_deg.begin(), [&](double x) { return sign * (x - zero.value()); });
    return angle_deg;
}

std::pair<Degrees, Degrees> extremes(std::span<const double> angle_deg) {
    double low = std::numeric_limits<double>::infinity(), high = -low;
    for (const double x : angle_deg) {
        low = x < low ? x : low;
        high = x > high ? x : high;
    }
    return {Degrees(low), Degrees(high)};
}

}  // namespace

AngleTrace prepare_angle(const Channel& channel, const PreparationOptions& options, Findings& findings) {
    AngleTraceParts parts{.motion = options.motion, .side = options.side};
    if (!options.motion.is_known()) {
        findings.emplace_back("joint-unknown", "directions are called positive and negative");
    }
    const EvenSeries series = sensor_series(channel, options, parts.steps, findings);
    const SampleSpan used = window_span(series, options.window);

    const Hertz cutoff = chosen_cutoff(series, options.lowpass, findings);
    const std::vector<double> smooth_deg = cutoff.is_set() ? filtered(series, cutoff) : series.samples;
    if (cutoff.is_set()) {
        parts.steps.push_back("low-pass " + fixed_text(cutoff.value(), 2) + " Hz, order 2, forward and backward");
    }

    const DirectionContext direction_context{.motion = options.motion,
                                             .side = options.side,
                                             .calibration = options.calibration ? &*options.calibration : nullptr,
                                             .mirror = options.mirror};
    const std::optional<Direction> stated = stated_direction(direction_context, findings);
    NeutralContext neutral_context{.rate = series.rate, .start = series.start, .used = used, .motion = options.motion};
    if (stated) {
        neutral_context.sign = stated->sign;
    }
    const Neutral neutral = find_neutral(series.samples, neutral_context, options.neutral, findings);
    const std::span<const double> used_deg = slice(smooth_deg, used);
    const auto [low, high] = percentile_range(used_deg);
    const Degrees zero(nearest_turn_deg(neutral.zero.value(), low, high));
    parts.steps.push_back(neutral.step);
    const Direction direction = find_direction(stated, neutral, low - zero, high - zero, options.motion, findings);
    parts.steps.push_back(direction.step);

    parts.angle_deg = anatomical(used_deg, zero, direction.sign);
    parts.unfiltered_deg = anatomical(slice(series.samples, used), zero, direction.sign);
    parts.reading_sign = direction.sign;
    parts.rate = series.rate;
    parts.start = series.time(used.first);
    parts.lowpass = cutoff;
    parts.uncertainty = uncertainty_of(options, neutral, zero, direction.sign);
    parts.uncertainty.noise = noise_of(parts, neutral);
    AngleTrace trace = AngleTraceBuilder::build(std::move(parts));

    const auto [lowest, highest] = extremes(trace.angle_deg());
    judge_direction(options.motion, lowest, highest, findings);
    judge_resting_level(trace.unfiltered_deg(), trace.rate(), findings);
    return trace;
}

NeutralChoice neutral_of_recording(const Channel& channel, const PreparationOptions& options, const std::string& source,
                                   Findings& findings) {
    std::vector<std::string> steps;
    Findings not_of_the_trial;
    const EvenSeries series = sensor_series(channel, options, steps, not_of_the_trial);
    const SampleSpan all{0, series.samples.size()};
    const NeutralContext context{.rate = series.rate, .start = series.start, .used = all, .motion = options.motion};
    NeutralChoice choice = options.neutral;
    if (choice.rule == NeutralChoice::Rule::first_still) {
        const std::vector<SampleSpan> stretches = still_stretches(series.samples, series.rate);
        const bool whole = stretches.empty() || is_still(series.samples, all, series.rate);
        const SampleSpan held = whole ? all : stretches.front();
        choice = {
            .rule = NeutralChoice::Rule::window,
            .window = {series.time(held.first), Seconds(series.time(held.last).value() - 0.5 / series.rate.value())}};
    }
    const Neutral neutral = find_neutral(series.samples, context, choice, findings);
    return {.rule = NeutralChoice::Rule::value,
            .value = neutral.zero,
            .u = neutral.u,
            .degrees_of_freedom = neutral.degrees_of_freedom,
            .source = source};
}

}  // namespace jointrom
