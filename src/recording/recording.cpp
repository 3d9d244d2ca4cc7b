#include <jointrom/recording/recording.hpp>

#include <jointrom/core/failure.hpp>

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
    for (const Channel& channel : recording.channels) {
        names += (names.empty() ? "" : ", ") + channel.name;
    }
    throw Failure(FailureKind::unreadable_data, "angle-missing", "no column looks like a joint angle: " + names,
                  "Name the column with --angle COLUMN.", {.file = recording.source});
}

}  // namespace jointrom
