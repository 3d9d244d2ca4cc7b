#pragma once

/// \file
/// The muscles of one recording from file to figures.

#include <jointrom/analysis/settings.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/emg/activity.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/movement/repetitions.hpp>

#include <cstddef>
#include <iosfwd>
#include <string>
#include <utility>
#include <vector>

namespace jointrom {

struct TrialActivity {
    MovementPhases phases;
    Repetitions repetitions;
    ActivityResult activity;
    std::vector<std::pair<std::string, std::size_t>> files;  ///< of maximal contractions, and how many rows each has
    Findings findings;  ///< of the movement, the muscles and the maximal contractions
};

/// The activity of the muscles of a trial, as the settings have it.
///
/// Method: muscle_activity(). A maximum that names a file is maximum_of() the channel of the muscle's name there,
/// conditioned alike; where the file has a single EMG channel and the maximum names its muscle, that one.
/// \throws Failure usage "mvc-channel-missing" when a file lacks the channel; unreadable_data "mvc-unusable" when its
///   channel is constant or shorter than half a second; and as read_recording(), muscle_activity()
[[nodiscard]] TrialActivity measure_activity(const Trial& trial, const Settings& settings, std::istream& standard_input,
                                             FrequencyWish frequencies = FrequencyWish::none);

}  // namespace jointrom
