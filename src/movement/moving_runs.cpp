#include "moving_runs.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double confirmation = 2.0;  // times the threshold, which a run must reach to count

/// Maximal runs of one sign above the threshold of that sign that get to `confirmation` times it.
std::vector<MovingRun> confirmed_runs(std::span<const double> velocity, SampleSpan stretch, double raising_deg_s,
                                      double lowering_deg_s) {
    const auto way = [&](std::size_t i) {
        return velocity[i] > raising_deg_s ? 1 : velocity[i] < -lowering_deg_s ? -1 : 0;
    };
    std::vector<MovingRun> runs;
    for (std::size_t i = stretch.first; i < stretch.last;) {
        const int sign = way(i);
        std::size_t end = i;
        double peak = 0.0;
        for (; end < stretch.last && way(end) == sign; ++end) {
            peak = std::max(peak, std::abs(velocity[end]));
        }
        if (sign != 0 && peak >= confirmation * (sign > 0 ? raising_deg_s : lowering_deg_s)) {
            runs.push_back({sign > 0, {i, end}});
        }
        i = end;
    }
    return runs;
}

void close_gaps(std::vector<MovingRun>& runs, std::size_t min_hold_samples) {
    std::vector<MovingRun> joined;
    for (const MovingRun& run : runs) {
        const bool continues = !joined.empty() && joined.back().is_raising == run.is_raising &&
                               run.span.first - joined.back().span.last < min_hold_samples;
        if (continues) {
            joined.back().span.last = run.span.last;
        } else {
            joined.push_back(run);
        }
    }
    runs = std::move(joined);
}

/// Runs within `stretch`, cleaned of stops on the way and of what is too short or too small.
std::vector<MovingRun> clean_runs(const AngleTrace& trace, SampleSpan stretch, const MovingRule& rule,
                                  double raising_deg_s, double lowering_deg_s) {
    const auto angle = trace.angle_deg();
    auto runs = confirmed_runs(trace.velocity_deg_s(), stretch, raising_deg_s, lowering_deg_s);
    close_gaps(runs, rule.min_hold_samples);
    std::erase_if(runs, [&](const MovingRun& run) {
        const double way = angle[std::min(run.span.last, stretch.last - 1)] - angle[run.span.first];
        return run.span.size() < rule.min_movement_samples || std::abs(way) < rule.min_excursion_deg;
    });
    close_gaps(runs, rule.min_hold_samples);
    return runs;
}

/// Slow movements in a stretch where nothing is fast enough for the common thresholds.
std::vector<MovingRun> slow_runs(const AngleTrace& trace, SampleSpan stretch, const MovingRule& rule) {
    if (stretch.empty()) {
        return {};
    }
    const auto [low, high] = std::ranges::minmax(slice(trace.angle_deg(), stretch));
    if (high - low < 2.0 * rule.min_excursion_deg) {
        return {};
    }
    const auto [down, up] = std::ranges::minmax(slice(trace.velocity_deg_s(), stretch));
    const double raising = std::max(rule.speed_share * up, rule.least_speed_deg_s);
    const double lowering = std::max(rule.speed_share * -down, rule.least_speed_deg_s);
    return clean_runs(trace, stretch, rule, raising, lowering);
}

}  // namespace

std::vector<MovingRun> moving_runs(const AngleTrace& trace, SampleSpan piece, const MovingRule& rule) {
    const auto fast = clean_runs(trace, piece, rule, rule.raising_deg_s, rule.lowering_deg_s);
    std::vector<MovingRun> runs;
    std::size_t still_from = piece.first;
    const auto add_slow = [&](std::size_t still_to) {
        const auto slow = slow_runs(trace, {still_from, still_to}, rule);
        runs.insert(runs.end(), slow.begin(), slow.end());
    };
    for (const MovingRun& run : fast) {
        add_slow(run.span.first);
        runs.push_back(run);
        still_from = run.span.last;
    }
    add_slow(piece.last);
    close_gaps(runs, rule.min_hold_samples);
    return runs;
}

}  // namespace jointrom
