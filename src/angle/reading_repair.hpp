#pragma once

/// \file
/// What a logger did to the reading, undone or marked as missing: jumps by a full turn, spikes, uneven time, gaps.

#include <jointrom/core/finding.hpp>
#include <jointrom/core/sample_span.hpp>
#include <jointrom/recording/time_base.hpp>

#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Joins the reading up where it jumps by about a full turn from one sample to the next. Gives the number of jumps.
///
/// Method: a step of 360 deg +- m, where m is what 1000 deg/s moves in a sample, 30 to 170 deg.
/// \param full_turn a turn in the unit of the reading
std::size_t join_full_turns(std::span<double> reading, Hertz rate, double full_turn = 360.0);

/// Samples that no joint can have made: up to three in a row that leave the level of their neighbours and come back.
///
/// Method: further off than 10 deg, than eight SDs of the noise, and than 1000 deg/s moves in a sample, on both sides.
/// A joint's fastest voluntary motion stays below that. (Common practice, no source.)
[[nodiscard]] std::vector<SampleSpan> find_spikes(std::span<const double> angle_deg, Hertz rate);

struct EvenSeries {
    std::vector<double> samples;
    Hertz rate;
    Seconds start;

    [[nodiscard]] Seconds time(std::size_t i) const {
        return Seconds(start.value() + static_cast<double>(i) / rate.value());
    }
};

/// The samples at a fixed rate, with short gaps filled by straight lines and longer ones left missing.
///
/// Method: a regular time base is kept. Stamped samples go by straight lines onto a grid of the mean of the intervals
/// that are no gap (up to 1.5 medians). Missing time up to `longest_bridged`, or two samples, is filled.
/// \param findings irregular-sampling, gap-bridged, gap
/// \throws Failure unreadable_data "too-short" with fewer than two samples, "gap-too-long" when the even series would
///   be absurdly longer than the stamped one
[[nodiscard]] EvenSeries even_series(const TimeBase& times, std::vector<double> samples, Seconds longest_bridged,
                                     Findings& findings);

}  // namespace jointrom
