#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/movement/repetitions.hpp>
#include <jointrom/report/movement_tables.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

struct RepetitionsOptions : TrialOptions {
    bool curve = false;
};

ExitStatus run_repetitions(const RepetitionsOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Trial trial = options.trial_of_angle(settings, console);
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    const Repetitions found = repetitions(trial.trace, phases);
    Report report = options.report(trial, settings, "jointrom-repetitions", "repetitions");
    report.findings.insert(report.findings.end(), found.findings.begin(), found.findings.end());
    if (options.curve) {
        const EnsembleCurve curve = ensemble_curve(trial.trace, found.rows);
        report.tables = {curve_table(curve), curve_figures_table(curve)};
    } else {
        report.tables = {repetition_table(trial.trace, found)};
        if (found.rows.size() > 1) {
            report.tables.push_back(repetition_summary_table(found));
        }
    }
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_repetitions(OptionList& list) {
    auto options = std::make_shared<RepetitionsOptions>();
    options->attach(list, {SettingGroup::phases});
    list.group("Output").flag("--curve", options->curve,
                              "the mean curve over 0-100 % of a repetition instead of a row for each");
    return [options](Console& console) { return run_repetitions(*options, console); };
}

}  // namespace jointrom::cli
