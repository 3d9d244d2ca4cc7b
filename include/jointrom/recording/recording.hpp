#pragma once

/// \file
/// A recording: named channels, each with its own time base, as they stand in the file and before any of them is
/// understood as a joint angle.

#include <jointrom/core/finding.hpp>
#include <jointrom/recording/time_base.hpp>
#include <jointrom/table/table_description.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

enum class ChannelRole { angle, emg, other };

[[nodiscard]] std::string_view name_of(ChannelRole role);

struct Channel {
    std::string name;        ///< heading without its unit; "column 3" where there is none
    std::string unit;        ///< as understood from the heading or units row, e.g. "deg", "mV"; empty when unknown
    std::size_t column = 0;  ///< number of the column in the file, counted from 1
    ChannelRole role = ChannelRole::other;
    TimeBase times;
    std::vector<double> samples;  ///< in `unit`; missing = NaN; times.count() long
};

struct Recording {
    std::string source;  ///< file name as given, or "-" for standard input
    TableDescription table;
    std::vector<Channel> channels;     ///< numeric columns except time, in file order
    std::optional<std::size_t> angle;  ///< index of the channel that is taken as the joint angle, when there is one
    Findings findings;
};

/// The channel that is taken as the joint angle. Other channels of the role `angle` are alternatives to it.
/// \throws Failure unreadable_data "angle-missing" when no channel looks like an angle
[[nodiscard]] const Channel& angle_channel(const Recording& recording);
[[nodiscard]] Channel& angle_channel(Recording& recording);

}  // namespace jointrom
