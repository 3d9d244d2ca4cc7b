#pragma once

/// \file
/// How evenly a channel was sampled.

#include <jointrom/recording/recording.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// A stretch without samples.
struct SamplingGap {
    double start_s;   ///< time of the last sample before it
    double length_s;  ///< to the first sample behind it
};

struct Sampling {
    std::size_t count = 0;  ///< samples and places for samples
    double rate_hz = 0.0;   ///< nominal
    double median_interval_s = 0.0;
    double jitter_s = 0.0;             ///< SD of the intervals that are no gaps; 0 on an even grid
    double largest_deviation_s = 0.0;  ///< of such an interval from the median one
    std::size_t repeated_stamps = 0;   ///< stamps equal to the one before
    std::vector<SamplingGap> gaps;     ///< in order, not counting what is missing at either end
};

/// Sampling of time stamps that do not fall.
///
/// Method: an interval longer than three median ones is a gap (common practice, no source).
/// \param time_s at least two, in seconds
[[nodiscard]] Sampling sampling_of(std::span<const double> time_s);

/// Sampling of a channel; missing samples between others are gaps.
/// \pre channel.times.count() > 0
[[nodiscard]] Sampling sampling_of(const Channel& channel);

}  // namespace jointrom
