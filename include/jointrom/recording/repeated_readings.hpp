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
/// Method, repeated: 45 % or more of the samples equal the one before, and among runs of equal samples between two
/// steps of at least five times the smallest step, half or more last two samples or longer. A coarse but true sampling
/// has no such steps where it lingers.
/// Method, joined: second differences over half a period (cut off at their 97th percentile) are large only around the
/// readings. Twenty periods from 2 to 100 samples, down to 10 readings a second, are tried on the part that moves most;
/// the longest one is taken at which their mean squares by phase, in both halves of the part alike, correlate by 0.8
/// with what lines would give and differ by 1.4 times (2.5 as the product of both; below 8 samples: 0.9, and four
/// times). Thresholds from trials with simulated movements.
/// Missing samples: skipped.
/// \return nothing when every sample is a reading, or when too little moves to tell
/// \par Complexity O(samples); the second method looks at 32768 of them
[[nodiscard]] std::optional<RepeatedReadings> find_repeated_readings(std::span<const double> samples, Hertz rate);

}  // namespace jointrom
