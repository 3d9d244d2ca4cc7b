#pragma once

/// \file
/// Channels whose times differ from those of the rows they stand in.

#include "time_axis.hpp"

#include <jointrom/core/finding.hpp>
#include <jointrom/core/units.hpp>
#include <jointrom/recording/recording.hpp>

#include <cstddef>
#include <string>

namespace jointrom {

/// What a column means that has values in its first rows only.
enum class ShortColumn {
    ended_early,  ///< the rows have times: the channel stopped
    slower        ///< the rows have none: a whole fraction of them is a slower channel written from the top
};

/// Gives a channel with blank cells a time base of its own if it was sampled more slowly than the rows (own_times.hpp).
/// \param stated the channel's own rate, unset when not stated
void take_own_times(Channel& channel, double resolution_s, ShortColumn short_column, Hertz stated, Findings& findings);

/// Thins a channel that was filled up to the rows' rate to the rate at which it was sampled: every k-th sample, from
/// the first one at which the reading changes. \throws Failure usage "rate-mismatch" when the channel's rate is no
/// whole multiple of `stated`, within 2 %
void apply_stated_rate(Channel& channel, Hertz stated);

/// Samples that a channel lacks, not counting rows that the axis lacks.
[[nodiscard]] std::size_t missing_cells(const Channel& channel, const TimeAxis& axis);

/// "'Knee angle' lacks 12 samples in 3 places, the longest 0.05 s at 2.31 s"
[[nodiscard]] std::string missing_text(const Channel& channel, std::size_t missing);

}  // namespace jointrom
