#include <jointrom/movement/repetitions.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/movement/movement_scale.hpp>
#include <jointrom/stats/descriptive.hpp>

#include "zigzag.hpp"

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double rest_window_s = 0.2;  // of a rest phase, next to the movement, that its angle is taken from
constexpr double cut_share = 0.2;      // of the typical arc: farther from the other valley, a moving end is a cut
constexpr std::size_t enough_for_spread = 3;

/// The search in one piece. Heights are angles with the sign turned so that away from rest is up.
class PieceSearch {
  public:
    PieceSearch(const AngleTrace& trace, SampleSpan piece, std::span<const Phase> phases, const MovementScale& scale,
                const RepetitionOptions& options)
        : trace_(trace), piece_(piece), phases_(phases), scale_(scale), options_(options),
          points_(points_with(options.arc_share)) {
        phases_ = phases_in(piece);
    }

    void find(Repetitions& result) const {
        for (std::size_t i = 0; i < points_.size(); ++i) {
            if (!is_top(points_[i])) {
                continue;
            }
            if (is_cut_at_start(i)) {
                report_cut(true, result.findings);
            } else if (is_cut_at_end(i)) {
                report_cut(false, result.findings);
            } else {
                result.rows.push_back(repetition(points_[i - 1].sample, points_[i].sample, points_[i + 1].sample));
            }
        }
        report_aborted(result.findings);
    }

  private:
    [[nodiscard]] std::vector<ZigzagPoint> points_with(double share) const {
        auto points = zigzag(slice(trace_.angle_deg(), piece_), scale_.leg_threshold_deg(share));
        for (ZigzagPoint& point : points) {
            point.sample += piece_.first;
        }
        return points;
    }

    [[nodiscard]] double height(std::size_t sample) const { return scale_.sign() * trace_.angle_deg()[sample]; }

    [[nodiscard]] bool is_top(const ZigzagPoint& point) const {
        return point.is_maximum == (scale_.away == AwayFromRest::toward_positive);
    }

    [[nodiscard]] bool is_cut_at_start(std::size_t top) const {
        return top == 0 || (top == 1 && points_.size() > 2 && is_in_motion(phases_.front()) &&
                            is_well_above(points_[0], points_[2]));
    }
    [[nodiscard]] bool is_cut_at_end(std::size_t top) const {
        return top + 1 == points_.size() || (top + 2 == points_.size() && is_in_motion(phases_.back()) &&
                                             is_well_above(points_[top + 1], points_[top - 1]));
    }
    static bool is_in_motion(const Phase& phase) {
        return phase.kind == PhaseKind::raising || phase.kind == PhaseKind::lowering;
    }
    /// A valley where the joint is moving, at an end of the piece, is none when it is well above the other one.
    [[nodiscard]] bool is_well_above(const ZigzagPoint& valley, const ZigzagPoint& other) const {
        return height(valley.sample) - height(other.sample) > cut_share * scale_.typical_arc_deg;
    }

    void report_cut(bool at_start, Findings& findings) const {
        const bool at_gap =
            at_start ? piece_.first != trace_.pieces().front().first : piece_.last != trace_.pieces().back().last;
        const Seconds time = trace_.time(at_start ? piece_.first : piece_.last);
        findings.emplace_back("cut-repetition", std::string(at_gap ? "a gap" : "the recording") +
                                                    (at_gap == at_start ? " ends at " : " starts at ") +
                                                    fixed_text(time.value(), 2) + " s in the middle of a repetition");
    }

    /// The phases that begin within `span`.
    [[nodiscard]] std::span<const Phase> phases_in(SampleSpan span) const {
        const auto first_sample = [](const Phase& phase) { return phase.span.first; };
        return {std::ranges::lower_bound(phases_, span.first, {}, first_sample),
                std::ranges::lower_bound(phases_, span.last, {}, first_sample)};
    }

    /// The last rest phase between the valley before and the turn. One that lasts beyond the turn, as in movements too
    /// slow to be phases, is none.
    [[nodiscard]] const Phase* rest_before(std::size_t valley, std::size_t turn) const {
        const auto until_turn = phases_in({piece_.first, turn});
        for (auto phase = until_turn.rbegin(); phase != until_turn.rend() && phase->span.last > valley; ++phase) {
            if (phase->kind == PhaseKind::rest && phase->span.last <= turn) {
                return &*phase;
            }
        }
        return nullptr;
    }
    /// The first between the turn and the valley after.
    [[nodiscard]] const Phase* rest_after(std::size_t valley, std::size_t turn) const {
        const auto from_turn = phases_in({turn, valley + 1});
        const auto found = std::ranges::find(from_turn, PhaseKind::rest, &Phase::kind);
        return found == from_turn.end() ? nullptr : &*found;
    }

    [[nodiscard]] Degrees lowest(SampleSpan span) const {
        const auto samples = slice(trace_.angle_deg(), span);
        return Degrees(scale_.sign() > 0.0 ? *std::ranges::min_element(samples) : *std::ranges::max_element(samples));
    }

    [[nodiscard]] Repetition repetition(std::size_t valley_before, std::size_t turn, std::size_t valley_after) const {
        const Phase* before = rest_before(valley_before, turn);
        const Phase* after = rest_after(valley_after, turn);
        const auto window = static_cast<std::size_t>(std::ceil(rest_window_s * trace_.rate().value()));
        Repetition row;
        row.span = {before != nullptr ? before->span.last : valley_before,
                    after != nullptr ? after->span.first : valley_after};
        row.turn_sample = turn;
        row.start = trace_.time(row.span.first);
        row.turn = trace_.time(turn);
        row.end = trace_.time(row.span.last);
        SampleSpan start{row.span.first, row.span.first + 1};
        SampleSpan end{row.span.last, row.span.last + 1};
        if (before != nullptr) {
            start.first -= std::min(window, before->span.size());
        }
        if (after != nullptr) {
            end.last = end.first + std::min(window, after->span.size());
        }
        row.start_angle = lowest(start);
        row.turn_angle = Degrees(trace_.angle_deg()[turn]);
        row.end_angle = lowest(end);
        add_measures(row);
        return row;
    }

    void add_measures(Repetition& row) const {
        const Degrees out = row.turn_angle - row.start_angle;
        const Degrees back = row.end_angle - row.turn_angle;
        const bool rises_first = scale_.away == AwayFromRest::toward_positive;
        row.raising_excursion = rises_first ? out : back;
        row.lowering_excursion = rises_first ? back : out;
        row.arc = std::max(row.raising_excursion, -row.lowering_excursion);
        const auto [down, up] = std::ranges::minmax(slice(trace_.velocity_deg_s(), row.span));
        row.raising_peak_velocity = DegreesPerSecond(up);
        row.lowering_peak_velocity = DegreesPerSecond(down);
        const auto inside = phases_in(row.span);
        row.raising = time_in(inside, PhaseKind::raising, row.span, trace_.rate());
        row.lowering = time_in(inside, PhaseKind::lowering, row.span, trace_.rate());
        row.holding = time_in(inside, PhaseKind::holding, row.span, trace_.rate());
        if (options_.with_smoothness) {
            row.smoothness = movement_smoothness(trace_, way_out(row));
        }
    }

    /// The largest movement away from rest within a repetition.
    [[nodiscard]] SampleSpan way_out(const Repetition& row) const {
        SampleSpan longest{row.span.first, row.turn_sample};
        double largest = 0.0;
        for (const Phase& phase : phases_in(row.span)) {
            const double way = scale_.sign() * phase.excursion.value();
            if (way > largest) {
                largest = way;
                longest = phase.span;
            }
        }
        return longest;
    }

    /// Smaller tops with rest on both sides.
    void report_aborted(Findings& findings) const {
        const auto small = points_with(options_.aborted_share);
        const double near_deg = options_.aborted_share * scale_.typical_arc_deg;
        for (std::size_t i = 1; i + 1 < small.size(); ++i) {
            const bool is_counted = std::ranges::binary_search(points_, small[i].sample, {}, &ZigzagPoint::sample);
            if (!is_top(small[i]) || is_counted) {
                continue;
            }
            const double base = std::max(height(small[i - 1].sample), height(small[i + 1].sample));
            if (base - valley_near(small[i].sample) <= near_deg) {
                const double share = (height(small[i].sample) - base) / scale_.typical_arc_deg;
                findings.emplace_back("aborted-repetition", "at " +
                                                                fixed_text(trace_.time(small[i].sample).value(), 2) +
                                                                " s the joint turned back at " +
                                                                fixed_text(100.0 * share, 0) + " % of the usual arc");
            }
        }
    }

    /// Height of the lower of the large turning points on either side of `sample`.
    [[nodiscard]] double valley_near(std::size_t sample) const {
        double lowest_height = std::numeric_limits<double>::infinity();
        const auto next = std::ranges::lower_bound(points_, sample, {}, &ZigzagPoint::sample);
        if (next != points_.end()) {
            lowest_height = height(next->sample);
        }
        if (next != points_.begin()) {
            lowest_height = std::min(lowest_height, height((next - 1)->sample));
        }
        return lowest_height;
    }

    const AngleTrace& trace_;
    SampleSpan piece_;
    std::span<const Phase> phases_;
    const MovementScale& scale_;
    const RepetitionOptions& options_;
    std::vector<ZigzagPoint> points_;
};

double coefficient_of_variation_pct(std::span<const double> values) {
    const Description all = describe(values);
    return 100.0 * all.sd / all.mean;
}

void add_summary(const AngleTrace& trace, Repetitions& result) {
    std::vector<double> arcs, durations, intervals;
    for (std::size_t i = 0; i < result.rows.size(); ++i) {
        const Repetition& row = result.rows[i];
        arcs.push_back(row.arc.value());
        durations.push_back(row.duration().value());
        const bool same_piece =
            i > 0 && std::ranges::any_of(trace.pieces(), [&](SampleSpan piece) {
                return piece.contains(result.rows[i - 1].turn_sample) && piece.contains(row.turn_sample);
            });
        if (same_piece) {
            intervals.push_back((row.turn - result.rows[i - 1].turn).value());
        }
    }
    result.arc_cv_pct = coefficient_of_variation_pct(arcs);
    result.duration_cv_pct = coefficient_of_variation_pct(durations);
    result.cadence_per_min = 60.0 / describe(intervals).mean;
}

}  // namespace

Repetitions repetitions(const AngleTrace& trace, const MovementPhases& phases, const RepetitionOptions& options) {
    const MovementScale& scale = phases.scale;
    Repetitions result{.rows = {}, .away = scale.away, .findings = {}};
    const double least_deg = std::max(scale.least_arc_deg(), options.min_arc.value());
    if (scale.robust_arc_deg < least_deg) {
        result.findings.emplace_back("no-movement", "nearly all angles lie within " +
                                                        fixed_text(scale.robust_arc_deg, 1) + " deg; less than " +
                                                        fixed_text(least_deg, 1) + " deg cannot be told from noise");
        return result;
    }
    for (const SampleSpan piece : trace.pieces()) {
        PieceSearch(trace, piece, phases.phases, scale, options).find(result);
    }
    for (std::size_t i = 0; i < result.rows.size(); ++i) {
        result.rows[i].number = i + 1;
    }
    add_summary(trace, result);
    if (result.rows.size() < enough_for_spread) {
        result.findings.emplace_back("few-repetitions",
                                     std::to_string(result.rows.size()) +
                                         (result.rows.size() == 1 ? " complete repetition" : " complete repetitions"));
    }
    const auto obstacle = smoothness_obstacle(trace);
    if (options.with_smoothness && obstacle) {
        result.findings.emplace_back("smoothness-unavailable", *obstacle);
    }
    return result;
}

const Repetition* repetition_with(const Phase& phase, std::span<const Repetition> repetitions) {
    const std::size_t middle = phase.span.first + phase.span.size() / 2;
    const auto next =
        std::ranges::upper_bound(repetitions, middle, {}, [](const Repetition& row) { return row.span.last; });
    return next != repetitions.end() && next->span.first <= middle ? &*next : nullptr;
}

}  // namespace jointrom
