#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/analysis/active_muscles.hpp>
#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/load/load_request.hpp>
#include <jointrom/load/static_load.hpp>
#include <jointrom/report/load_tables.hpp>

#include <fmt/format.h>

#include <memory>
#include <optional>
#include <utility>

namespace jointrom::cli {
namespace {

struct LoadOptions : TrialOptions {
    std::vector<std::string> at_deg;  ///< angles to hold instead of a recording
    std::string by;
    bool series = false;
    bool activity = false;
};

void refuse_beside_angles(const LoadOptions& options) {
    const char* const other = !options.file.empty() ? "a recording"
                              : options.series      ? "--series"
                              : options.activity    ? "--activity"
                              : !options.by.empty() ? "--by"
                                                    : nullptr;
    if (other != nullptr) {
        throw Failure(FailureKind::usage, "load-twice", fmt::format("--at-deg and {} do not go together", other),
                      "--at-deg computes a limb held still, on paper; a recording has its own angles.");
    }
}

/// The limb held still at stated angles, without a recording.
ExitStatus run_held(const LoadOptions& options, Console& console) {
    refuse_beside_angles(options);
    const Settings settings = options.settings.settings();
    const JointMotion& motion =
        settings.joint.empty() ? unknown_joint_motion() : joint_motion(settings.joint, settings.motion);
    Report report;
    report.schema = "jointrom-load";
    report.title = fmt::format("load on the joint, held still: {} {}", motion.joint, motion.motion);
    report.settings = options.settings.in_force(settings);
    const LoadModel model = load_model(motion, settings.load, report.findings);
    const std::optional<MuscleAttachment> muscle = muscle_of(settings.load);
    std::vector<StaticLoad> loads;
    for (const std::string& typed : options.at_deg) {
        for (const double angle_deg : number_list_setting("--at-deg", typed)) {
            loads.push_back(static_load(motion, model, Degrees(angle_deg), muscle));
        }
    }
    const StaticLoadView view{motion, model, loads, muscle};
    report.tables = {static_load_table(view)};
    report.remarks = static_load_remarks(view);
    report.budgets = static_load_budgets(view);
    options.output.write(report, console);
    return exit_done;
}

ExitStatus run_load(const LoadOptions& options, Console& console) {
    if (!options.at_deg.empty()) {
        return run_held(options, console);
    }
    if (options.file.empty()) {
        throw Failure(FailureKind::usage, "load-nothing", "there is neither a recording nor an angle",
                      "Name a file, or the angles of a limb held still with --at-deg.");
    }
    const Settings settings = options.settings.settings();
    const Format form = options.output.chosen_format(options.series ? Format::csv : Format::table);
    if (options.series && form == Format::table) {
        throw Failure(FailureKind::usage, "format-unknown", "--format is table, expected csv or json for a series");
    }
    const std::optional<MuscleAttachment> muscle = muscle_of(settings.load);
    const Trial trial = options.trial(settings, console);
    Report report = options.report(trial, settings, "jointrom-load", "load on the joint");
    const LoadModel model = load_model(trial.trace.motion(), settings.load, report.findings);
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    const Repetitions found = repetitions(trial.trace, phases, {.with_smoothness = false});
    const JointLoad load = joint_load(trial.trace, model, phases.phases, found.rows);
    LoadView view{trial.trace, model, load, muscle};
    if (options.activity) {
        const TrialActivity measured = measure_activity(trial, settings, console.in);
        view.active_muscles = active_muscles(measured.activity, load.phases.size());
        report.findings.insert(report.findings.end(), measured.activity.findings.begin(),
                               measured.activity.findings.end());
    }

    report.findings.insert(report.findings.end(), found.findings.begin(), found.findings.end());
    report.findings.insert(report.findings.end(), load.findings.begin(), load.findings.end());
    if (form != Format::table) {
        report.findings.emplace_back("load-estimate", "an estimate for teaching, no advice on training or treatment");
    }
    if (options.series) {
        options.output.write(report.findings, console, [&](const TextSink& sink) {
            if (form == Format::csv) {
                load_series_csv(view, sink);
            } else {
                sink(load_series_json(view, report));
            }
        });
        return exit_done;
    }
    report.tables = {load_phase_table(view), load_repetition_table(view), load_summary_table(view)};
    if (options.by == "repetition") {
        std::swap(report.tables[0], report.tables[1]);
    }
    const std::vector<std::string> remarks = load_remarks(view);
    report.remarks.insert(report.remarks.begin(), remarks.begin(), remarks.end());
    report.budgets = load_budgets(view);
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_load(OptionList& list) {
    auto options = std::make_shared<LoadOptions>();
    options->attach(list, {SettingGroup::load, SettingGroup::activity, SettingGroup::phases},
                    {.may_explain = true, .needs_file = false});
    list.group("Without a recording");
    list.values(
        "--at-deg", options->at_deg, "A",
        "hold the limb still at this joint angle, in degrees, as in a problem on paper; or at several, 30,60,90");
    list.group("Output");
    list.flag("--activity", options->activity, "name the muscles that were active in each phase, from their EMG");
    list.value("--by", options->by, "ROWS", "phase or repetition: which rows CSV holds")
        .one_of({"phase", "repetition"})
        .otherwise("phase");
    list.flag("--series", options->series, "moment, power and energy over time instead");
    return [options](Console& console) { return run_load(*options, console); };
}

}  // namespace jointrom::cli
