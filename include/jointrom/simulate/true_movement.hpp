#pragma once

/// \file
/// What a joint truly does: still stretches joined by minimum-jerk movements.

#include <jointrom/movement/phases.hpp>

#include <cstddef>
#include <vector>

namespace jointrom {

/// A stretch in which the joint is still or goes from one angle to another.
struct TruePhase {
    PhaseKind kind = PhaseKind::rest;
    double start_s = 0.0;
    double end_s = 0.0;
    double start_deg = 0.0;
    double end_deg = 0.0;

    [[nodiscard]] double duration_s() const noexcept { return end_s - start_s; }
    /// With its sign: 1.875 times the mean one (closed form of the minimum-jerk movement).
    [[nodiscard]] double peak_velocity_deg_s() const noexcept;
};

struct TrueRepetition {
    double start_s = 0.0;
    double top_from_s = 0.0;  ///< the top is reached
    double top_to_s = 0.0;    ///< and left
    double end_s = 0.0;
    double start_deg = 0.0;
    double top_deg = 0.0;
    double end_deg = 0.0;
};

/// A movement, put together in order of time. Times are whole milliseconds.
///
/// Method: from a to b in T seconds the angle is a + (b - a) (10 x^3 - 15 x^4 + 6 x^5) with x = t / T.
/// \par Reference T. Flash and N. Hogan 1985, J Neurosci 5:1688
class TrueMovement {
  public:
    explicit TrueMovement(double start_deg) : now_deg_(start_deg) {}

    /// Still for a while; next to a stretch of the same kind, its continuation. Nothing for no time.
    void hold(double seconds, PhaseKind kind);
    /// \pre seconds > 0. To the same angle: a hold
    void move(double to_deg, double seconds);
    /// Raised (or lowered) to the top, held there, and back.
    void repeat(double top_deg, double end_deg, double raising_s, double hold_s, double lowering_s);

    [[nodiscard]] double end_s() const noexcept { return now_s_; }
    [[nodiscard]] double now_deg() const noexcept { return now_deg_; }
    [[nodiscard]] double lowest_deg() const noexcept;
    [[nodiscard]] double highest_deg() const noexcept;
    /// Before the start and after the end, the angle there.
    [[nodiscard]] double angle_deg(double time_s) const noexcept;

    [[nodiscard]] const std::vector<TruePhase>& phases() const noexcept { return phases_; }
    [[nodiscard]] const std::vector<TrueRepetition>& repetitions() const noexcept { return repetitions_; }

  private:
    double now_s_ = 0.0;
    double now_deg_;
    std::vector<TruePhase> phases_;
    std::vector<TrueRepetition> repetitions_;
};

}  // namespace jointrom
