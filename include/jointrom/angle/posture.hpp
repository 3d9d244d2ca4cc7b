#pragma once

/// \file
/// Stretches in which a reading hardly changes, and the level held there with an honest uncertainty. Used for the
/// neutral zero and for calibration readings; postures of a finished trace are measured in movement/.

#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <span>
#include <vector>

namespace jointrom {

/// A level held over a stretch of samples, in the unit of the samples.
struct HeldLevel {
    SampleSpan span;
    double mean = 0.0;
    double sd = 0.0;               ///< of one sample about the straight line through the stretch
    double drift = 0.0;            ///< change along that line from first to last sample
    double effective_count = 1.0;  ///< number of independent samples that would give the mean the same uncertainty
    double u = 0.0;                ///< standard uncertainty of the mean: sd / sqrt(effective_count), and the drift
};

/// The level of a stretch.
///
/// Method: mean; least-squares line for the drift, which counts as a rectangular half-width of drift / 2; the effective
/// number from the autocorrelation of at most 512 block means about the line, summed in pairs while positive.
/// Missing samples: skipped.
/// \return all numbers NaN when no sample is there
/// \par Reference C. J. Geyer 1992, Stat Sci 7:473 (initial positive sequence); JCGM 100:2008, 4.3.7 (rectangular).
[[nodiscard]] HeldLevel held_level(std::span<const double> samples, SampleSpan span);

/// What counts as still. (Common practice, no source.)
struct StillnessRule {
    Seconds shortest{0.5};        ///< a posture is held for at least this, and three samples
    DegreesPerSecond speed{5.0};  ///< slower than this is still, at least
    double speed_of_peak = 0.05;  ///< or slower than this part of the peak speed, at most twice `speed`
    Degrees level{3.0};           ///< the level may wander by this within a posture
};

/// Every stretch in which the angle is held still, in order.
///
/// Method: speed is the difference of neighbouring means over 0.125 s (at least one sample). Still is slower than the
/// rule's speed, or than four SDs of what noise alone gives (limited to 15 % of the peak speed). A still run is cut
/// where the mean leaves its level; what is left and long enough is a posture.
/// Missing samples: a gap ends a posture.
/// \param angle_deg uniformly sampled, any zero
/// \par Complexity O(samples)
[[nodiscard]] std::vector<SampleSpan> still_stretches(std::span<const double> angle_deg, Hertz rate,
                                                      const StillnessRule& rule = {});

/// Whether the angle stays within the rule's level (and noise) over a stretch.
[[nodiscard]] bool is_still(std::span<const double> angle_deg, SampleSpan span, Hertz rate,
                            const StillnessRule& rule = {});

}  // namespace jointrom
