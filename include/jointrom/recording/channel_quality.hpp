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
    std::size_t spikes = 0;        ///< single samples far from both neighbours; not looked for in an EMG
    std::optional<RepeatedReadings> filled_up;
    Findings findings;  ///< irregular-sampling, missing-suspect, repeated-readings, saturated, spikes, stuck,
                        ///< unit-suspect, wrap-around
};

/// Everything that is known to go wrong with a channel.
///
/// Method: angle_findings(), and: spikes: a sample that jumps from both neighbours by more than 12 times the noise, 3 %
/// of the range and what 20 000 deg/s2 (from memory: twice a fast voluntary movement) would allow of 150 degrees of
/// range. wrap-around: steps of a full turn that do not come back.
/// \par Complexity O(samples), some passes and one copy
[[nodiscard]] ChannelQuality channel_quality(const Channel& channel);

/// Those findings that bear on every result from an angle and that nothing later looks for: missing-suspect,
/// repeated-readings, saturated, stuck, unit-suspect. At most some thousand samples are copied.
///
/// Method. saturated: runs of equal samples at the highest or lowest reading that movement goes into and comes out of
/// at speed, or amid noise; a rest does not count, nor does a channel that lies as still elsewhere. stuck: one value
/// all the time, or for a second or longer amid noise. missing-suspect: the extreme value is repeated and stands half a
/// range or more off the rest, or zeros are entered and left by jumps; nothing else is judged then. unit-suspect:
/// degrees that look like radians, volts or counts; radians beyond two turns.
[[nodiscard]] Findings angle_findings(const Channel& channel);

}  // namespace jointrom
