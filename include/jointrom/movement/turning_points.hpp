#pragma once

/// \file
/// Where the joint turned round.

#include <jointrom/angle/angle_trace.hpp>

#include <cstddef>
#include <vector>

namespace jointrom {

enum class TurningPointKind { maximum, minimum };

struct TurningPoint {
    TurningPointKind kind = TurningPointKind::maximum;
    std::size_t sample = 0;
    Seconds time;
    Degrees angle;
    Degrees
        prominence;  ///< how far the joint goes back, on the side where that is less, before it goes further than here
    SampleSpan plateau;  ///< samples around it that stay within the plateau tolerance: how long the turn was held
    bool at_edge =
        false;  ///< known from one side only: the recording, or a gap, begins or ends before the joint turned
};

struct TurningPointOptions {
    double prominence_share = 0.2;  ///< least prominence as a share of robust_arc(); design choice
    Degrees prominence{};           ///< least prominence; when set, it takes the place of the share
    Seconds min_duration{0.05};     ///< a turn that stays near its angle for less is taken as a glitch; design choice
    Degrees plateau_tolerance{};    ///< unset: 2 % of the robust arc or three SD of the noise, whichever is more
};

/// Maxima and minima by turns, in order of time.
///
/// Method: hysteresis. A turn counts once the joint has gone back by the least prominence, which is never less than
/// eight SD of the noise in the trace or 1 deg when taken from the share, so noise makes no turning points. Of equal
/// samples in a row the middle one is reported. A turn is a glitch when the time within the least prominence of its
/// angle is shorter than `min_duration`; it is left out together with the less extreme of its neighbours. Missing
/// samples: the pieces between gaps are taken one by one.
///
/// \return empty when the joint did not move by the least prominence
/// \throws Failure usage "prominence-not-positive"
/// \par Accuracy sample and prominence equal to find_peaks of SciPy 1.10.1 between the edges
/// \par Complexity O(n)
[[nodiscard]] std::vector<TurningPoint> turning_points(const AngleTrace& trace,
                                                       const TurningPointOptions& options = {});

/// The arc of the movement, insensitive to short spikes and to how long the rests are: from the angle that is undercut
/// to the angle that is exceeded for 0.1 s (at least three samples) in all.
[[nodiscard]] Degrees robust_arc(const AngleTrace& trace);

}  // namespace jointrom
