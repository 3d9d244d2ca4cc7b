#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/report/movement_tables.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

ExitStatus run_phases(const TrialOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Trial trial = options.trial_of_angle(settings, console);
    const MovementPhases found = movement_phases(trial.trace, settings.phases);
    Report report = options.report(trial, settings, "jointrom-phases", "phases of movement");
    const Repetitions counted = repetitions(trial.trace, found, {.with_smoothness = false});
    report.tables.push_back(phase_table(trial.trace, found.phases, counted.rows));
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_phases(OptionList& list) {
    auto options = std::make_shared<TrialOptions>();
    options->attach(list, {SettingGroup::phases});
    return [options](Console& console) { return run_phases(*options, console); };
}

}  // namespace jointrom::cli
