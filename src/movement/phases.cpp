#include <jointrom/movement/phases.hpp>

#include <jointrom/movement/movement_scale.hpp>
#include <jointrom/stats/robust.hpp>

#include "moving_runs.hpp"
#include "zigzag.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double noise_factor = 2.0;       // SD of the velocity's noise below which nothing is a movement
constexpr double jerk_factor = 2.0;        // a movement faster than this many typical ones does not set thresholds
constexpr double always_rest_share = 0.1;  // of the way from valley to top
constexpr double rest_share = 0.5;

struct PeakSpeeds {
    double raising_deg_s;
    double lowering_deg_s;
};

/// Peak speed either way; when the joint makes large movements one way only, it stands for both.
PeakSpeeds peak_speeds(const AngleTrace& trace, double leg_deg) {
    std::vector<double> up_peaks, down_peaks;
    double fastest_up = 0.0;
    double fastest_down = 0.0;
    for (const SampleSpan piece : trace.pieces()) {
        const auto velocity = slice(trace.velocity_deg_s(), piece);
        const auto [down, up] = std::ranges::minmax(velocity);
        fastest_up = std::max(fastest_up, up);
        fastest_down = std::max(fastest_down, -down);
        const auto points = zigzag(slice(trace.angle_deg(), piece), leg_deg);
        for (std::size_t i = 1; i < points.size(); ++i) {
            const SampleSpan leg{points[i - 1].sample, points[i].sample + 1};
            const auto [leg_down, leg_up] = std::ranges::minmax(slice(velocity, leg));
            (points[i].is_maximum ? up_peaks : down_peaks).push_back(points[i].is_maximum ? leg_up : -leg_down);
        }
    }
    const auto limited = [](double fastest, const std::vector<double>& peaks) {
        return std::min(fastest, jerk_factor * median(peaks));
    };
    if (up_peaks.empty() && down_peaks.empty()) {
        return {std::max(fastest_up, fastest_down), std::max(fastest_up, fastest_down)};
    }
    const double up = limited(fastest_up, up_peaks.empty() ? down_peaks : up_peaks);
    const double down = limited(fastest_down, down_peaks.empty() ? up_peaks : down_peaks);
    return {up_peaks.empty() ? down : up, down_peaks.empty() ? up : down};
}

MovingRule moving_rule(const AngleTrace& trace, const PhaseOptions& options, const MovementScale& scale) {
    const PeakSpeeds peaks = peak_speeds(trace, scale.leg_threshold_deg());
    const double least = std::max(noise_factor * scale.noise.velocity_deg_s, options.min_speed.value());
    const auto samples = [&](Seconds time) {
        return static_cast<std::size_t>(std::ceil(time.value() * trace.rate().value() - 1e-9));
    };
    return {.raising_deg_s = std::max(options.speed_share * peaks.raising_deg_s, least),
            .lowering_deg_s = std::max(options.speed_share * peaks.lowering_deg_s, least),
            .least_speed_deg_s = least,
            .speed_share = options.speed_share,
            .min_excursion_deg = std::max(options.min_excursion_share * scale.typical_arc_deg, scale.least_arc_deg()),
            .min_hold_samples = samples(options.min_hold),
            .min_movement_samples = samples(options.min_movement)};
}

/// Runs on either side of a turn without a hold are made to meet at the turning point.
void divide_turns(std::span<const double> angle, std::vector<MovingRun>& runs, std::size_t min_hold_samples) {
    for (std::size_t i = 1; i < runs.size(); ++i) {
        SampleSpan& before = runs[i - 1].span;
        SampleSpan& after = runs[i].span;
        if (runs[i - 1].is_raising == runs[i].is_raising || after.first - before.last >= min_hold_samples) {
            continue;
        }
        const auto both = slice(angle, {before.first, after.last});
        const auto turn = runs[i].is_raising ? std::ranges::min_element(both) : std::ranges::max_element(both);
        const std::size_t sample = before.first + static_cast<std::size_t>(turn - both.begin());
        before.last = std::clamp(sample, before.first + 1, after.last - 1);
        after.first = before.last;
    }
}

/// Tells rest from holding by how far a still posture is from the valley on the way to the top.
class StillJudge {
  public:
    StillJudge(const AngleTrace& trace, SampleSpan piece, const MovementScale& scale)
        : angle_(trace.angle_deg()), piece_(piece), scale_(scale),
          points_(zigzag(slice(trace.angle_deg(), piece), scale.leg_threshold_deg())) {}

    [[nodiscard]] PhaseKind kind(SampleSpan still, const MovingRun* before, const MovingRun* after) const {
        const double share = scale_.moves() ? height(still) : 0.0;
        if (share < always_rest_share) {
            return PhaseKind::rest;
        }
        const bool away_is_raising = scale_.away == AwayFromRest::toward_positive;
        const bool came_away = before != nullptr && before->is_raising == away_is_raising;
        const bool goes_back = after != nullptr && after->is_raising != away_is_raising;
        return !came_away && !goes_back && share < rest_share ? PhaseKind::rest : PhaseKind::holding;
    }

  private:
    /// 0 at the valley, 1 at the top of the leg that the middle of `still` lies in.
    [[nodiscard]] double height(SampleSpan still) const {
        const std::size_t middle = still.first + still.size() / 2;
        double valley = scale_.away == AwayFromRest::toward_positive ? scale_.levels.low_deg : scale_.levels.high_deg;
        double top = scale_.away == AwayFromRest::toward_positive ? scale_.levels.high_deg : scale_.levels.low_deg;
        if (points_.size() >= 2) {
            const auto next = std::ranges::lower_bound(points_, middle - piece_.first, {}, &ZigzagPoint::sample);
            const auto i = std::clamp<std::ptrdiff_t>(next - points_.begin(), 1, std::ssize(points_) - 1);
            const ZigzagPoint a = points_[static_cast<std::size_t>(i - 1)];
            const ZigzagPoint b = points_[static_cast<std::size_t>(i)];
            const bool a_is_top = a.is_maximum == (scale_.away == AwayFromRest::toward_positive);
            valley = angle_[piece_.first + (a_is_top ? b : a).sample];
            top = angle_[piece_.first + (a_is_top ? a : b).sample];
        }
        return (angle_[middle] - valley) / (top - valley);
    }

    std::span<const double> angle_;
    SampleSpan piece_;
    MovementScale scale_;
    std::vector<ZigzagPoint> points_;
};

Phase phase_of(const AngleTrace& trace, SampleSpan piece, SampleSpan span, PhaseKind kind) {
    const double from = trace.angle_deg()[span.first];
    const double to = trace.angle_deg()[std::min(span.last, piece.last - 1)];
    const auto [down, up] = std::ranges::minmax(slice(trace.velocity_deg_s(), span));
    const bool positive = kind == PhaseKind::raising || (kind != PhaseKind::lowering && up > -down);
    return {.kind = kind,
            .span = span,
            .start = trace.time(span.first),
            .end = trace.time(span.last),
            .start_angle = Degrees(from),
            .end_angle = Degrees(to),
            .excursion = Degrees(to - from),
            .peak_velocity = DegreesPerSecond(positive ? up : down),
            .mean_velocity = DegreesPerSecond((to - from) / trace.duration(span).value())};
}

}  // namespace

std::string_view name_of(PhaseKind kind) {
    switch (kind) {
    case PhaseKind::rest:
        return "rest";
    case PhaseKind::raising:
        return "raising";
    case PhaseKind::holding:
        return "holding";
    case PhaseKind::lowering:
        return "lowering";
    }
    return {};
}

std::string name_of(PhaseKind kind, const JointMotion& motion) {
    const bool is_moving = kind == PhaseKind::raising || kind == PhaseKind::lowering;
    if (!is_moving || !motion.is_known()) {
        return std::string(name_of(kind));
    }
    return "toward " + (kind == PhaseKind::raising ? motion.positive : motion.negative);
}

MovementPhases movement_phases(const AngleTrace& trace, const PhaseOptions& options) {
    const MovementScale scale = movement_scale(trace);
    const MovingRule rule = moving_rule(trace, options, scale);
    MovementPhases result{.phases = {},
                          .raising_threshold = DegreesPerSecond(rule.raising_deg_s),
                          .lowering_threshold = DegreesPerSecond(rule.lowering_deg_s),
                          .min_excursion = Degrees(rule.min_excursion_deg),
                          .scale = scale};
    for (const SampleSpan piece : trace.pieces()) {
        auto runs = moving_runs(trace, piece, rule);
        divide_turns(trace.angle_deg(), runs, rule.min_hold_samples);
        const StillJudge judge(trace, piece, scale);
        std::size_t covered = piece.first;
        for (std::size_t i = 0; i <= runs.size(); ++i) {
            const MovingRun* before = i > 0 ? &runs[i - 1] : nullptr;
            const MovingRun* after = i < runs.size() ? &runs[i] : nullptr;
            const SampleSpan still{covered, after != nullptr ? after->span.first : piece.last};
            if (!still.empty()) {
                const PhaseKind kind = judge.kind(still, before, after);
                result.phases.push_back(phase_of(trace, piece, still, kind));
            }
            if (after != nullptr) {
                const PhaseKind kind = after->is_raising ? PhaseKind::raising : PhaseKind::lowering;
                result.phases.push_back(phase_of(trace, piece, after->span, kind));
                covered = after->span.last;
            }
        }
    }
    return result;
}

Seconds time_in(std::span<const Phase> phases, PhaseKind kind, SampleSpan span, Hertz rate) {
    std::size_t samples = 0;
    for (const Phase& phase : phases) {
        const std::size_t first = std::max(phase.span.first, span.first);
        const std::size_t last = std::min(phase.span.last, span.last);
        samples += phase.kind == kind && first < last ? last - first : 0;
    }
    return Seconds(static_cast<double>(samples) / rate.value());
}

}  // namespace jointrom
