#include <jointrom/recording/recording.hpp>

#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace jointrom {

std::string_view name_of(ChannelRole role) {
    switch (role) {
    case ChannelRole::angle:
        return "angle";
    case ChannelRole::emg:
        return "emg";
    case ChannelRole::other:
        break;
    }
    return "other";
}

const Channel& angle_channel(const Recording& recording) {
    if (recording.angle) {
        return recording.channels[*recording.angle];
    }
    std::string names;
    bool any_number = false;
    for (const Channel& channel : recording.channels) {
        const bool has_number = std::ranges::any_of(channel.samples, [](double x) { return std::isfinite(x); });
        any_number = any_number || has_number;
        names += (names.empty() ? "" : ", ") + channel.name + (has_number ? "" : " (empty)");
    }
    if (!any_number) {
        throw Failure(FailureKind::unreadable_data, "angle-missing", "no column holds a sample: " + names,
                      "Check the sensor's plug, and export the recording again.", {.file = recording.source});
    }
    throw Failure(FailureKind::unreadable_data, "angle-missing", "no column looks like a joint angle: " + names,
                  "Name the column with --angle COLUMN.", {.file = recording.source});
}

Channel& angle_channel(Recording& recording) {
    return recording
        .channels[static_cast<std::size_t>(&angle_channel(std::as_const(recording)) - recording.channels.data())];
}

}  // namespace jointrom
