#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/report/movement_tables.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

ExitStatus run_peaks(const TrialOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Trial trial = options.trial_of_angle(settings, console);
    const auto points = turning_points(trial.trace, settings.turning_points);
    Report report = options.report(trial, settings, "jointrom-peaks", "turning points");
    report.tables.push_back(turning_point_table(trial.trace, points));
    if (points.empty()) {
        report.findings.emplace_back("no-movement", "the joint never turned round");
    }
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_peaks(OptionList& list) {
    auto options = std::make_shared<TrialOptions>();
    options->attach(list, {SettingGroup::turning_points});
    return [options](Console& console) { return run_peaks(*options, console); };
}

}  // namespace jointrom::cli
