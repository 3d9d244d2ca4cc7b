#include "cli/plot_request.hpp"

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/figure/angle_activity_figure.hpp>
#include <jointrom/figure/angle_figure.hpp>
#include <jointrom/figure/angle_velocity_figure.hpp>
#include <jointrom/figure/cutoff_figure.hpp>
#include <jointrom/figure/ensemble_figure.hpp>
#include <jointrom/figure/velocity_figure.hpp>
#include <jointrom/movement/turning_points.hpp>

#include <algorithm>
#include <istream>

namespace jointrom::cli {
namespace {

bool has_muscles(const Recording& recording) {
    return std::ranges::any_of(recording.channels,
                               [](const Channel& channel) { return channel.role == ChannelRole::emg; });
}

/// The activity of the muscles; without them an angle can be drawn all the same.
std::vector<MuscleActivity> muscles_if_any(const Trial& trial, const Settings& settings, Console& console,
                                           Findings& findings) {
    if (!has_muscles(trial.recording)) {
        return {};
    }
    try {
        return measure_activity(trial, settings, console.in).activity.muscles;
    } catch (const Failure& failure) {
        findings.emplace_back("activity-unavailable", failure.what(), failure.place());
        return {};
    }
}

std::string angle_with_muscles(const PlotRequest& request, const Settings& settings, const Trial& trial,
                               Console& console, Findings& findings) {
    const auto muscles = muscles_if_any(trial, settings, console, findings);
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    return angle_figure(trial.trace, phases.phases, turning_points(trial.trace, settings.turning_points), muscles,
                        request.style);
}

std::string activity_against_angle(const PlotRequest& request, const Settings& settings, const Trial& trial,
                                   Console& console, Findings& findings) {
    const TrialActivity measured = measure_activity(trial, settings, console.in);
    findings.insert(findings.end(), measured.activity.findings.begin(), measured.activity.findings.end());
    return angle_activity_figure(trial.trace, measured.phases.phases, measured.activity.muscles, request.style);
}

}  // namespace

std::string trial_figure(const PlotRequest& request, Console& console, Findings& findings) {
    Settings settings = request.settings.settings();
    const bool shows_muscles = request.figure == "angle" || request.figure == "angle-activity";
    settings.reading.angle_only = settings.reading.angle_only || !shows_muscles;
    const Trial trial = prepare_trial(request.file, console.in, settings);
    findings = trial.findings;
    if (request.figure == "angle") {
        return angle_with_muscles(request, settings, trial, console, findings);
    }
    if (request.figure == "angle-activity") {
        return activity_against_angle(request, settings, trial, console, findings);
    }
    if (request.figure == "cutoff") {
        return cutoff_figure(residual_analysis(trial.trace.unfiltered_deg(), trial.trace.rate()), "deg",
                             trial.trace.lowpass(), request.style);
    }
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    if (request.figure == "velocity") {
        return velocity_figure(trial.trace, phases.phases, request.style);
    }
    const Repetitions found = repetitions(trial.trace, phases, {.with_smoothness = false});
    findings.insert(findings.end(), found.findings.begin(), found.findings.end());
    return request.figure == "curve"
               ? ensemble_figure(trial.trace, ensemble_curve(trial.trace, found.rows), request.style)
               : angle_velocity_figure(trial.trace, found.rows, request.style);
}

}  // namespace jointrom::cli
