#pragma once

/// \file
/// Repetitions of a movement: from rest to the turning point and back.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/smoothness.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// Raising and lowering are meant as in phases.hpp: toward the positive and the negative direction of the motion.
/// When rest is at the far end, a repetition lowers first.
struct Repetition {
    std::size_t number = 0;       ///< from 1
    SampleSpan span;              ///< from where the movement starts to where it is back
    std::size_t turn_sample = 0;  ///< farthest from rest
    Seconds start;
    Seconds turn;
    Seconds end;
    Degrees start_angle;  ///< of the rest (at most 0.2 s of it) or the valley before
    Degrees turn_angle;
    Degrees end_angle;                        ///< of the rest or the valley after
    Degrees raising_excursion;                ///< positive
    Degrees lowering_excursion;               ///< negative
    Degrees arc;                              ///< the larger of both in size
    DegreesPerSecond raising_peak_velocity;   ///< positive
    DegreesPerSecond lowering_peak_velocity;  ///< negative
    Seconds raising;                          ///< time spent raising; the three times add up to the duration
    Seconds holding;                          ///< at the turn and on the way
    Seconds lowering;
    Smoothness smoothness;  ///< of the largest movement away from rest

    [[nodiscard]] Seconds duration() const noexcept { return end - start; }
};

struct RepetitionOptions {
    double arc_share =
        0.4;  ///< of the typical arc, both ways: a smaller movement is no repetition; 0.3 to 0.5 is usual
    double aborted_share = 0.2;  ///< and from here on it is reported as aborted; design choice
    Degrees min_arc{5.0};        ///< a recording with less has no movement: what goniometry cannot tell from none
                                 ///< (D. C. Boone et al. 1978, Phys Ther 58:1355: testers differ by 3 to 5 deg)
    bool with_smoothness = true;
};

struct Repetitions {
    std::vector<Repetition> rows;
    AwayFromRest away = AwayFromRest::toward_positive;
    double cadence_per_min = std::numeric_limits<double>::quiet_NaN();  ///< from turn to turn; missing for one
    double arc_cv_pct = std::numeric_limits<double>::quiet_NaN();       ///< 100 SD / mean; missing for one
    double duration_cv_pct = std::numeric_limits<double>::quiet_NaN();
    Findings findings;  ///< no-movement, few-repetitions, cut-repetition, aborted-repetition, smoothness-unavailable
};

/// The repetitions of a recording.
///
/// Method: valley, top, valley with a way of at least `arc_share` of the typical arc on either side, by hysteresis, so
/// a dip while holding, a double top or a slow drift of the rest does not count. The typical arc is the leg between
/// turning points in which half of the whole way is made, so neither fidgeting nor one outlier sets it. A repetition
/// starts where the last rest phase before the turn ends, and ends where the next begins; without rest, at the valleys.
/// What is cut off by the start or end of the recording or by a gap is not counted: finding `cut-repetition`. A
/// movement that leaves rest and comes back to it earlier is not counted either: finding `aborted-repetition`.
///
/// \param phases movement_phases() of the same trace
/// \par Complexity O(n)
[[nodiscard]] Repetitions repetitions(const AngleTrace& trace, const MovementPhases& phases,
                                      const RepetitionOptions& options = {});

/// The repetition that a phase belongs to: the one that holds its middle. Every table that tells phases and repetitions
/// goes by it, so their rows join by its number.
/// \pre the repetitions are in order of time
/// \return nullptr for a phase between repetitions
[[nodiscard]] const Repetition* repetition_with(const Phase& phase, std::span<const Repetition> repetitions);

}  // namespace jointrom
