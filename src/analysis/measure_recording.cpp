#include <jointrom/analysis/measure_recording.hpp>
#include <jointrom/core/failure.hpp>

#include <algorithm>
#include <utility>

namespace jointrom {
namespace {

void append_new(Findings& all, const Findings& more) {
    for (const Finding& finding : more) {
        if (std::ranges::find(all, finding) == all.end()) {
            all.push_back(finding);
        }
    }
}

bool has_muscles(const Recording& recording) {
    return std::ranges::any_of(recording.channels,
                               [](const Channel& channel) { return channel.role == ChannelRole::emg; });
}

void measure_muscles(const Settings& settings, std::istream& standard_input, MeasuredRecording& result) {
    try {
        result.muscles = measure_activity(result.trial, settings, standard_input);
        append_new(result.findings, result.muscles->findings);
    } catch (const Failure& failure) {
        if (failure.code() != "emg-unusable") {
            throw;  // something that was asked for
        }
        result.findings.emplace_back("activity-unavailable", failure.what(), failure.place());
    }
}

}  // namespace

MeasuredRecording measure_recording(Trial trial, const Settings& settings, std::istream& standard_input) {
    MeasuredRecording result{.trial = std::move(trial)};
    const AngleTrace& trace = result.trial.trace;
    result.phases = movement_phases(trace, settings.phases);
    result.repetitions = repetitions(trace, result.phases);
    result.postures = still_postures(trace, settings.stillness);
    result.peaks = turning_points(trace, settings.turning_points);
    result.range = range_of_motion(trace, result.repetitions.rows, result.postures);
    for (const Findings* findings : {&result.trial.findings, &result.repetitions.findings, &result.range.findings}) {
        append_new(result.findings, *findings);
    }
    if (has_muscles(result.trial.recording)) {
        measure_muscles(settings, standard_input, result);
    }
    return result;
}

}  // namespace jointrom
