#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/report/angle_series.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

ExitStatus run_angles(const TrialOptions& options, Console& console) {
    const Format form = options.output.chosen_format(Format::csv);
    if (form == Format::table) {
        throw Failure(FailureKind::usage, "format-unknown", "--format is table, expected csv or json for a series");
    }
    const Settings settings = options.settings.settings();
    const Trial trial = options.trial_of_angle(settings, console);
    options.output.write(trial.findings, console, [&](const TextSink& sink) {
        if (form == Format::csv) {
            angle_series_csv(trial.trace, sink);
        } else {
            sink(angle_series_json(trial.trace, options.report(trial, settings, "jointrom-angles", "joint angle")));
        }
    });
    return exit_done;
}

}  // namespace

Action attach_angles(OptionList& list) {
    auto options = std::make_shared<TrialOptions>();
    options->attach(list);
    return [options](Console& console) { return run_angles(*options, console); };
}

}  // namespace jointrom::cli
