#pragma once

/// \file
/// Hum of the mains in an electromyogram, also where a slow logger shows it at another frequency.

#include <jointrom/core/units.hpp>
#include <jointrom/signal/spectrum.hpp>

#include <optional>
#include <span>
#include <vector>

namespace jointrom {

/// Where a frequency appears after sampling: |f - rate round(f / rate)|, between 0 and half the rate.
[[nodiscard]] Hertz alias_of(Hertz frequency, Hertz rate);

/// Power densities of an electromyogram, segment by segment of one second that overlap by half; of a long recording
/// 512, spread over it. Missing samples: the longest piece without any is used.
///
/// \return empty for fewer than two seconds of samples, and below 8 Hz
[[nodiscard]] SegmentDensities densities_of_seconds(std::span<const double> samples, Hertz rate);

struct MainsHum {
    Hertz mains;               ///< 50 or 60, or what was stated
    std::vector<Hertz> lines;  ///< where it appears, with its harmonics, each once
    double excess_db;          ///< of the density at the first line over its surroundings
    double share;              ///< of all power, at the lines
};

/// Mains hum, if the spectrum shows any.
///
/// Method: at each frequency the median over the seconds, so that bursts of activity do not hide what is always there.
/// A line stands out when the largest value within 1 Hz of it is more than 10 dB above the median of those within 10 Hz
/// (design choice). It is looked for where the mains frequency and its harmonics up to the fifth appear at this rate;
/// harmonics count only beside the first. Nothing can be told below 5 Hz and within 2 Hz of half the rate.
///
/// \param seconds densities_of_seconds() at this rate
/// \param mains unset: 50 and 60 Hz are tried, and the one that stands out more is taken
[[nodiscard]] std::optional<MainsHum> find_mains_hum(const SegmentDensities& seconds, Hertz rate, Hertz mains = {});

}  // namespace jointrom
