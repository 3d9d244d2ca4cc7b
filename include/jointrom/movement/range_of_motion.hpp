#pragma once

/// \file
/// Range of motion: how far the joint went either way, for a moment, held, and on average.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/core/uncertainty.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/movement/still_postures.hpp>

#include <cstddef>
#include <optional>
#include <span>

namespace jointrom {

/// The farthest that the joint got in one direction.
struct Extreme {
    Degrees angle;
    Seconds time;
    std::size_t sample = 0;
    bool at_edge =
        false;  ///< at an end of the recording or at a gap, with the joint moving: the true one may be beyond
    Budget budget;
};

/// A value measured in every repetition.
struct RepeatedValue {
    Degrees mean;
    Degrees sd;  ///< between repetitions, n - 1; missing for one
    std::size_t count = 0;
    Budget budget;  ///< of the mean
};

struct RangeOfMotion {
    Extreme positive;  ///< in the positive direction of the motion, e.g. flexion
    Extreme negative;  ///< in the negative direction, e.g. extension
    Degrees arc;       ///< positive less negative
    Budget arc_budget;
    std::optional<StillPosture> held_positive;  ///< the held posture farthest in the positive direction
    std::optional<StillPosture> held_negative;
    std::optional<RepeatedValue> mean_positive;  ///< over the repetitions; none without any
    std::optional<RepeatedValue> mean_negative;
    std::optional<RepeatedValue> mean_arc;
    Findings findings;  ///< extreme-at-edge
};

/// The range of motion of a recording.
///
/// Method: extremes are the largest and the smallest sample of the filtered trace; of equal ones the first. Their
/// uncertainty holds, once each, what the sensor contributes (angle_uncertainty.hpp) and
/// - the noise that the filter leaves, and that the farthest of several noisy samples is too far: mean and SD of the
///   largest of as many independent normal values as the noise has chances (Rice's crossing rate) near the extreme;
/// - what the filter takes off a short peak, or adds where a fast movement stops: the change in the extreme when the
///   cut-off is doubled, less what the noise contributes to that change;
/// - for the mean over repetitions, their SD / sqrt(n) in place of the noise.
///
/// In an arc, offset and neutral zero cancel, and the gain counts for the arc alone.
/// Missing samples: skipped.
///
/// \param repetitions of the same trace; none: no means
/// \param postures    still_postures() of the same trace; none: no held extremes
/// \par Accuracy standard uncertainties within 2 % of Monte Carlo trials with drawn calibration, zero and noise; those
/// of
///      noise and filter alone within 20 %, at a turning point up to 45 % too large
/// \par Reference JCGM 100:2008 (GUM); G. Blom, Statistical Estimates and Transformed Beta-Variables, 1958; S. O. Rice
///      1945, Bell Syst Tech J 24:46
[[nodiscard]] RangeOfMotion range_of_motion(const AngleTrace& trace, std::span<const Repetition> repetitions = {},
                                            std::span<const StillPosture> postures = {});

}  // namespace jointrom
