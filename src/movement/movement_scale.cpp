#include <jointrom/movement/movement_scale.hpp>

#include <jointrom/signal/order_statistic.hpp>

#include "zigzag.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <vector>

namespace jointrom {
namespace {

constexpr double level_time_s = 0.1;
constexpr std::size_t level_samples = 3;
constexpr double low_threshold_share = 0.1;  // of the robust arc: legs shorter than this are no legs
constexpr double undecided_share = 0.15;     // how near the middle the ends of a recording say nothing about rest
constexpr double noise_spread = 10.0;        // plus and minus five SD hold all but 6 in ten million samples
constexpr double smallest_arc_deg = 1.0;

double mean_of(std::span<const double> samples) {
    double sum = 0.0;
    for (const double x : samples) {
        sum += x;
    }
    return sum / static_cast<double>(samples.size());
}

double typical_leg(const AngleTrace& trace, double threshold) {
    std::vector<double> legs;
    for (const SampleSpan piece : trace.pieces()) {
        const auto samples = slice(trace.angle_deg(), piece);
        const auto points = zigzag(samples, threshold);
        for (std::size_t i = 1; i < points.size(); ++i) {
            legs.push_back(std::abs(samples[points[i].sample] - samples[points[i - 1].sample]));
        }
    }
    std::sort(legs.begin(), legs.end(), std::greater<>());
    double way = 0.0;
    for (const double leg : legs) {
        way += leg;
    }
    double made = 0.0;
    for (const double leg : legs) {
        made += leg;
        if (made >= way / 2.0) {
            return leg;
        }
    }
    return 0.0;
}

/// Rest is where the recording starts and ends; if that is in the middle, at the neutral zero.
AwayFromRest away_from_rest(const AngleTrace& trace, RobustLevels levels) {
    const double arc = levels.high_deg - levels.low_deg;
    const SampleSpan first = trace.pieces().front();
    const SampleSpan last = trace.pieces().back();
    const auto samples = [&](SampleSpan piece) {
        return std::clamp<std::size_t>(static_cast<std::size_t>(level_time_s * trace.rate().value()), 1, piece.size());
    };
    const double start = mean_of(trace.angle_deg().subspan(first.first, samples(first)));
    const double end = mean_of(trace.angle_deg().subspan(last.last - samples(last), samples(last)));
    const double height = ((start + end) / 2.0 - levels.low_deg) / arc;
    const bool undecided = !(std::abs(height - 0.5) > undecided_share);
    const bool up = undecided ? std::abs(levels.high_deg) >= std::abs(levels.low_deg) : height < 0.5;
    return up ? AwayFromRest::toward_positive : AwayFromRest::toward_negative;
}

}  // namespace

RobustLevels robust_levels(const AngleTrace& trace) {
    const auto angle = trace.angle_deg();
    const auto angle_at = [angle](std::size_t i) { return angle[i]; };
    const std::size_t wanted = std::max(level_samples, static_cast<std::size_t>(level_time_s * trace.rate().value()));
    const auto low = [wanted](std::size_t count) { return std::min(wanted, count / 10 + 1) - 1; };
    const auto high = [low](std::size_t count) { return count - 1 - low(count); };
    return {value_of_rank(angle.size(), angle_at, low).at, value_of_rank(angle.size(), angle_at, high).at};
}

double MovementScale::least_arc_deg() const noexcept {
    return std::max(noise_spread * noise.angle_deg, smallest_arc_deg);
}

double MovementScale::leg_threshold_deg(double share) const noexcept {
    return std::max(share * typical_arc_deg, least_arc_deg());
}

MovementScale movement_scale(const AngleTrace& trace) {
    MovementScale scale;
    scale.levels = robust_levels(trace);
    scale.robust_arc_deg = scale.levels.high_deg - scale.levels.low_deg;
    scale.noise = trace_noise(trace);
    const double threshold = std::max(low_threshold_share * scale.robust_arc_deg, scale.least_arc_deg());
    scale.typical_arc_deg = std::max(typical_leg(trace, threshold), scale.robust_arc_deg / 2.0);
    scale.away = away_from_rest(trace, scale.levels);
    return scale;
}

}  // namespace jointrom
