#include <jointrom/angle/neutral.hpp>

#include "percentile_range.hpp"

#include <jointrom/angle/direction.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/core/uncertainty.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double far_from_neutral_deg = 30.0;
constexpr double inside_limits_deg = 10.0;  // the limits are generous; a chance fit must not pass
constexpr double full_turn_deg = 360.0;

double time_s(const NeutralContext& context, std::size_t i) {
    return context.start.value() + static_cast<double>(i) / context.rate.value();
}

std::string place_text(const NeutralContext& context, SampleSpan span) {
    return fixed_text(time_s(context, span.first), 2) + "-" + fixed_text(time_s(context, span.last), 2) + " s";
}

SampleSpan samples_of(TimeWindow window, const NeutralContext& context, std::size_t count) {
    const auto position = [&](Seconds time, double slack) {
        const double i = (time - context.start).value() * context.rate.value() + slack;
        return static_cast<std::size_t>(std::clamp(std::ceil(i), 0.0, static_cast<double>(count)));
    };
    const std::size_t first = position(window.start, -1e-3);
    return {first, std::max(first, position(window.end, 1e-3))};
}

/// Smallest step between neighbouring samples that differ; 0 when none do.
double resolution_deg(std::span<const double> angle_deg) {
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < angle_deg.size(); ++i) {
        const double step = std::abs(angle_deg[i] - angle_deg[i - 1]);
        smallest = step > 0.0 && step < smallest ? step : smallest;
    }
    return std::isfinite(smallest) ? smallest : 0.0;
}

Neutral from_level(std::span<const double> angle_deg, const HeldLevel& level, const NeutralContext& context) {
    const double u_resolution_deg = rectangular_u(0.5 * resolution_deg(angle_deg));
    return {.zero = Degrees(level.mean),
            .u = Degrees(std::hypot(level.u, u_resolution_deg)),
            .degrees_of_freedom = std::max(1.0, level.effective_count - 1.0),
            .noise = Degrees(level.sd),
            .sign = 0,
            .step = "zero at " + place_text(context, level.span) + ": " + fixed_text(level.mean, 2) + " deg"};
}

Neutral from_window(std::span<const double> angle_deg, const NeutralContext& context, TimeWindow window,
                    Findings& findings) {
    const SampleSpan span = samples_of(window, context, angle_deg.size());
    const HeldLevel level = held_level(angle_deg, span);
    if (!std::isfinite(level.mean)) {
        throw Failure(FailureKind::usage, "neutral-window-empty",
                      "there is no sample from " + fixed_text(window.start.value(), 2) + " to " +
                          fixed_text(window.end.value(), 2) + " s",
                      "The recording has samples from " + fixed_text(time_s(context, 0), 2) + " to " +
                          fixed_text(time_s(context, angle_deg.size()), 2) + " s; see --neutral-s.");
    }
    if (!is_still(angle_deg, span, context.rate)) {
        findings.emplace_back("neutral-not-still", "the reading changes by more than " +
                                                       fixed_text(StillnessRule{}.level.value(), 0) + " deg from " +
                                                       place_text(context, span));
    }
    return from_level(angle_deg, level, context);
}

/// Whole turns that bring the reading nearest to 0.
double whole_turns_deg(Degrees low, Degrees high) {
    return full_turn_deg * std::round(0.5 * (low + high).value() / full_turn_deg);
}

/// Distance from 0 or 180, whichever is nearer.
double distance_from_straight_deg(double reading_deg) {
    return std::abs(std::remainder(reading_deg, 180.0));
}

Neutral sensor_zero(double zero_deg, int sign, const std::string& why, Findings& findings) {
    findings.emplace_back("neutral-sensor-zero", why);
    return {
        .zero = Degrees(zero_deg), .u = {}, .noise = {}, .sign = sign, .step = "the sensor's zero was kept: " + why};
}

struct Fit {
    bool kept = false;    ///< the readings are joint angles as they are
    bool turned = false;  ///< they are with the opposite sign
};

Fit fit_of_sensor_zero(std::pair<Degrees, Degrees> range, const NeutralContext& context) {
    const auto fits = [&](int sign) {
        return plausibility_margin(context.motion, range.first, range.second, sign).value() >= inside_limits_deg;
    };
    return {context.sign.value_or(1) == 1 && fits(1), context.sign.value_or(-1) == -1 && fits(-1)};
}

/// The stretch that is neutral: the first, unless the joint moved before it and a later one is nearer to straight.
SampleSpan neutral_stretch(std::span<const double> used, std::span<const SampleSpan> stretches, Findings& findings) {
    const SampleSpan first = stretches.front();
    const double level_deg = held_level(used, first).mean;
    if (distance_from_straight_deg(level_deg) <= far_from_neutral_deg) {
        return first;
    }
    const auto [low, high] = percentile_range(used.first(first.first));
    const double moved_deg = std::max(high.value() - level_deg, level_deg - low.value());
    if (!(moved_deg > far_from_neutral_deg)) {
        return first;
    }
    const auto straight = std::ranges::find_if(stretches, [&](const SampleSpan& stretch) {
        return distance_from_straight_deg(held_level(used, stretch).mean) <= far_from_neutral_deg;
    });
    findings.emplace_back("neutral-suspect", "the joint moved by " + fixed_text(moved_deg, 0) +
                                                 " deg before it was first held still, at a reading of " +
                                                 fixed_text(level_deg, 1) + " deg");
    return straight == stretches.end() ? first : *straight;
}

Neutral from_first_still(std::span<const double> angle_deg, const NeutralContext& context, Findings& findings) {
    const std::span<const double> used = slice(angle_deg, context.used);
    if (context.still.empty()) {
        const auto [low, high] = percentile_range(used);
        const double turns_deg = whole_turns_deg(low, high);
        return sensor_zero(std::isfinite(turns_deg) ? turns_deg : 0.0, 0, "no posture was held still", findings);
    }
    const SampleSpan chosen = neutral_stretch(used, context.still, findings);
    const SampleSpan first{chosen.first + context.used.first, chosen.last + context.used.first};
    const HeldLevel level = held_level(angle_deg, first);
    const std::string where = std::string(chosen == context.still.front() ? "the first" : "a later") +
                              " still posture (" + place_text(context, first) + ") reads " + fixed_text(level.mean, 1) +
                              " deg";
    if (context.motion.is_known() && distance_from_straight_deg(level.mean) > far_from_neutral_deg) {
        const auto [low, high] = percentile_range(used);
        const Degrees turns(whole_turns_deg(low, high));
        const Fit fit = fit_of_sensor_zero({low - turns, high - turns}, context);
        if (fit.kept != fit.turned) {
            return sensor_zero(turns.value(), fit.kept ? 1 : -1,
                               where + " and all readings, " + fixed_text((low - turns).value(), 0) + " to " +
                                   fixed_text((high - turns).value(), 0) + " deg, are " + context.motion.joint +
                                   " angles" + (fit.kept ? "" : " with the opposite sign") + " already",
                               findings);
        }
        if (fit.kept && fit.turned) {
            findings.emplace_back("neutral-suspect",
                                  where + "; if the sensor shows joint angles already, give --neutral-deg 0");
        }
    }
    findings.emplace_back("neutral-assumed", where + "; zero was put there");
    return from_level(angle_deg, level, context);
}

}  // namespace

Neutral find_neutral(std::span<const double> angle_deg, const NeutralContext& context, const NeutralChoice& choice,
                     Findings& findings) {
    switch (choice.rule) {
    case NeutralChoice::Rule::window:
        return from_window(angle_deg, context, choice.window, findings);
    case NeutralChoice::Rule::value:
        return {.zero = choice.value,
                .u = choice.u,
                .degrees_of_freedom = choice.degrees_of_freedom,
                .noise = {},
                .sign = 0,
                .step = "zero at " + fixed_text(choice.value.value(), 2) + " deg (" + choice.source + ")"};
    case NeutralChoice::Rule::first_still:
        break;
    }
    return from_first_still(angle_deg, context, findings);
}

}  // namespace jointrom
