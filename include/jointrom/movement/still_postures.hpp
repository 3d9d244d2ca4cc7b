#pragma once

/// \file
/// Postures that were held still, and their comparison with the angles that they should have.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/core/uncertainty.hpp>

#include <optional>
#include <span>
#include <vector>

namespace jointrom {

struct StillPosture {
    SampleSpan span;
    Seconds start;
    Seconds end;
    Degrees mean;
    Degrees sd;              ///< of the samples about the straight line through them
    DegreesPerSecond drift;  ///< slope of that line
    Budget budget;           ///< of the mean: sensor, neutral zero, noise, drift

    [[nodiscard]] Seconds duration() const noexcept { return end - start; }
};

struct StillPostureOptions {
    DegreesPerSecond max_speed{5.0};  ///< or three SD of the noise in the velocity, if that is more; design choice
    Seconds min_duration{0.5};        ///< design choice
    Degrees tolerance{3.0};  ///< no sample is farther than this from the middle of the posture's band; design choice
    DegreesPerSecond max_drift{1.0};  ///< design choice
};

/// The postures that were held still, in order.
///
/// Method: stretches below `max_speed`, with excursions above it of less than 0.1 s allowed inside. In each the longest
/// part within a band of twice `tolerance` is a posture if it lasts `min_duration`, and drifts by no more than
/// `tolerance` in all or more slowly than `max_drift`; then the rest of the stretch is searched.
/// The uncertainty of the mean holds the noise, with the samples counted that are independent (held_level()), and what
/// a drift of more than twice its own noise exceeds that noise by, over its whole width (rectangular).
///
/// Missing samples: a posture does not reach across a gap.
///
/// \par Complexity O(n) for each posture
[[nodiscard]] std::vector<StillPosture> still_postures(const AngleTrace& trace,
                                                       const StillPostureOptions& options = {});

/// How expected angles are given to postures.
enum class PostureMatching {
    in_order,  ///< in the order in which they were held; extra postures in between are passed over
    nearest    ///< whichever is nearest, in any order
};

struct ExpectedMatch {
    Degrees expected;
    std::optional<std::size_t> posture;  ///< index into the postures; none: not held
    Degrees deviation;                   ///< mean less expected; missing when not held
};

struct ExpectedMatches {
    std::vector<ExpectedMatch> matches;       ///< one for each expected angle, in the order given
    std::vector<std::size_t> extra_postures;  ///< those that no angle was given to
    Findings findings;                        ///< expected-unmatched
};

/// Each expected angle with the posture that fits it. As many as possible are matched; of the ways to do that, the one
/// with the smallest sum of deviations (`nearest`: the closest pair first).
///
/// \param tolerance a posture farther away than this does not fit
/// \throws Failure usage "tolerance-negative"
[[nodiscard]] ExpectedMatches match_expected(std::span<const StillPosture> postures,
                                             std::span<const double> expected_deg,
                                             PostureMatching matching = PostureMatching::in_order,
                                             Degrees tolerance = Degrees(10.0));

}  // namespace jointrom
