#pragma once

/// \file
/// Whether a channel can be trusted: what its samples alone show.

#include <jointrom/core/finding.hpp>
#include <jointrom/recording/recording.hpp>
#include <jointrom/recording/repeated_readings.hpp>

#include <cstddef>
#include <limits>
#include <optional>

namespace jointrom {

/// Facts about a channel, in its own unit. NaN where there are no samples to tell from.
struct ChannelQuality {
    static constexpr double none = std::numeric_limits<double>::quiet_NaN();

    std::size_t count = 0;
    std::size_t missing = 0;
    double min = none;
    double max = none;
    double median = none;
    double noise_sd = none;        ///< of one sample (signal/noise_level.hpp)
    double resolution = none;      ///< smallest step between unequal neighbours
    double repeated_share = none;  ///< of samples that equal the one before
    std::size_t full_turns = 0;    ///< jumps by about 360 degrees, or by the whole range of another unit
    std::size_t spikes = 0;        ///< single samples far from both neighbours
    std::optional<RepeatedReadings> filled_up;
    Findings findings;  ///< irregular-sampling, missing-suspect, repeated-readings, saturated, spikes, stuck,
                        ///< unit-suspect, wrap-around
};

/// Everything that is known to go wrong with a channel.
/// \par Complexity O(samples), some passes and one copy
[[nodiscard]] ChannelQuality channel_quality(const Channel& channel);

/// Those findings that bear on every result from an angle, found without copying the samples: missing-suspect,
/// repeated-readings, saturated, spikes, stuck, unit-suspect.
///
/// Method. saturated: a run of equal samples at the highest or lowest reading where the channel is noisy elsewhere, or
/// that was reached at speed although the channel rests nowhere else; a rest at 0 does not count.
/// stuck: one value all the time, or for a second or longer amid noise.
/// spikes: a sample that jumps from both neighbours by more than 12 times the noise, 3 % of the range and what
/// 20 000 deg/s2 (from memory: twice a fast voluntary movement) would allow of 150 degrees of range.
/// missing-suspect: the extreme value is repeated and stands half a range or more off the rest, or zeros are entered
/// and left by jumps. unit-suspect: degrees that look like radians, volts or counts; radians beyond a turn.
[[nodiscard]] Findings angle_findings(const Channel& channel);

}  // namespace jointrom
