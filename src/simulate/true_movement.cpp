#include <jointrom/simulate/true_movement.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

double later_s(double now_s, double seconds) {
    return std::round((now_s + seconds) * 1000.0) / 1000.0;
}

}  // namespace

double TruePhase::peak_velocity_deg_s() const noexcept {
    return duration_s() > 0.0 ? 1.875 * (end_deg - start_deg) / duration_s() : 0.0;
}

void TrueMovement::hold(double seconds, PhaseKind kind) {
    const double end_s = later_s(now_s_, seconds);
    if (end_s <= now_s_) {
        return;
    }
    if (!phases_.empty() && phases_.back().kind == kind && phases_.back().end_deg == now_deg_ &&
        phases_.back().start_deg == now_deg_) {
        phases_.back().end_s = end_s;
    } else {
        phases_.push_back({kind, now_s_, end_s, now_deg_, now_deg_});
    }
    now_s_ = end_s;
}

void TrueMovement::move(double to_deg, double seconds) {
    if (to_deg == now_deg_) {
        hold(seconds, PhaseKind::holding);
        return;
    }
    const double end_s = std::max(later_s(now_s_, seconds), later_s(now_s_, 0.001));
    phases_.push_back({to_deg > now_deg_ ? PhaseKind::raising : PhaseKind::lowering, now_s_, end_s, now_deg_, to_deg});
    now_s_ = end_s;
    now_deg_ = to_deg;
}

void TrueMovement::repeat(double top_deg, double end_deg, double raising_s, double hold_s, double lowering_s) {
    TrueRepetition repetition{.start_s = now_s_, .start_deg = now_deg_, .top_deg = top_deg, .end_deg = end_deg};
    move(top_deg, raising_s);
    repetition.top_from_s = now_s_;
    hold(hold_s, PhaseKind::holding);
    repetition.top_to_s = now_s_;
    move(end_deg, lowering_s);
    repetition.end_s = now_s_;
    repetitions_.push_back(repetition);
}

double TrueMovement::lowest_deg() const noexcept {
    double lowest = now_deg_;
    for (const TruePhase& phase : phases_) {
        lowest = std::min({lowest, phase.start_deg, phase.end_deg});
    }
    return lowest;
}

double TrueMovement::highest_deg() const noexcept {
    double highest = now_deg_;
    for (const TruePhase& phase : phases_) {
        highest = std::max({highest, phase.start_deg, phase.end_deg});
    }
    return highest;
}

double TrueMovement::angle_deg(double time_s) const noexcept {
    const auto phase = std::ranges::upper_bound(phases_, time_s, {}, &TruePhase::end_s);
    if (phase == phases_.end()) {
        return now_deg_;
    }
    const double x = std::max(0.0, (time_s - phase->start_s) / phase->duration_s());
    return phase->start_deg + (phase->end_deg - phase->start_deg) * x * x * x * (10.0 + x * (6.0 * x - 15.0));
}

}  // namespace jointrom
