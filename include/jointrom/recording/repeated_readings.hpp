#pragma once

/// \file
/// Channels that were filled up to a higher rate than they were sampled at.

#include <jointrom/core/units.hpp>

#include <cstddef>
#include <optional>
#include <span>

namespace jointrom {

struct RepeatedReadings {
    enum class Kind {
        held,         ///< each reading is repeated until the next
        interpolated  ///< readings are joined by straight lines
    };
    Kind kind = Kind::held;
    Hertz true_rate;        ///< at which readings seem to have been taken
    std::size_t every = 0;  ///< samples from one reading to the next, on average where that varies
    std::size_t first = 0;  ///< first sample at which a reading stands, below `every`; 0 where the distance varies
};

/// Whether a channel was filled up by repeating its readings or by joining them with straight lines.
///
/// Method, repeated: among runs of equal samples between two steps of at least three times the smallest step, a run
/// lasts 1.5 samples or more on average. A coarse but true sampling has no such steps where it lingers.
/// Method, joined: second differences over half a period are large only around the readings. Periods of 2, 4, 5, 8,
/// 10, 16, 20, 25, 40, 50 and 100 samples are tried on the part that moves most; the longest one is taken at which
/// the mean square at one phase is four times that at all phases further than 3/8 of a period away, in both halves
/// alike (common practice, no source).
/// Missing samples: skipped.
/// \return nothing when every sample is a reading, or when too little moves to tell
/// \par Complexity O(samples); the second method looks at 65536 of them
[[nodiscard]] std::optional<RepeatedReadings> find_repeated_readings(std::span<const double> samples, Hertz rate);

}  // namespace jointrom
