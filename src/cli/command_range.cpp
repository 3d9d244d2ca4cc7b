#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/movement/range_of_motion.hpp>
#include <jointrom/report/movement_tables.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

ExitStatus run_range(const TrialOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Trial trial = options.trial_of_angle(settings, console);
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    const Repetitions found = repetitions(trial.trace, phases, {.with_smoothness = false});
    const auto postures = still_postures(trial.trace, settings.stillness);
    const RangeOfMotion range = range_of_motion(trial.trace, found.rows, postures);

    Report report = options.report(trial, settings, "jointrom-range", "range of motion");
    report.tables.push_back(range_table(trial.trace, range));
    report.findings.insert(report.findings.end(), found.findings.begin(), found.findings.end());
    report.findings.insert(report.findings.end(), range.findings.begin(), range.findings.end());
    report.remarks.insert(report.remarks.begin(), neutral_zero_sentence(trial.trace.motion(), range));
    report.budgets = {{trial.trace.motion().positive, range.positive.budget},
                      {trial.trace.motion().negative, range.negative.budget},
                      {"arc", range.arc_budget}};
    if (range.mean_arc) {
        report.budgets.push_back({"mean arc", range.mean_arc->budget});
    }
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_range(OptionList& list) {
    auto options = std::make_shared<TrialOptions>();
    options->attach(list, {SettingGroup::phases, SettingGroup::stillness}, true);
    return [options](Console& console) { return run_range(*options, console); };
}

}  // namespace jointrom::cli
