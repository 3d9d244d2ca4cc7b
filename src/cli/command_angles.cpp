#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/recording/bids_motion.hpp>
#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/report/angle_series.hpp>
#include <jointrom/report/bids_motion_files.hpp>
#include <jointrom/report/edf_file.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

ExitStatus run_angles(const TrialOptions& options, Console& console) {
    const Format form = options.output.chosen_format(Format::csv);
    if (form == Format::table) {
        throw Failure(FailureKind::usage, "format-unknown", "--format is table, expected csv or json for a series");
    }
    const Settings settings = options.settings.settings();
    if (is_edf(options.output.output)) {
        const Trial trial = options.trial(settings, console);  // with the muscles
        options.output.print(trial.findings, console);
        write_edf(options.output.output, trial.trace, trial.recording,
                  movement_phases(trial.trace, settings.phases).phases);
        return exit_done;
    }
    const Trial trial = options.trial_of_angle(settings, console);
    if (is_bids_motion(options.output.output)) {
        options.output.print(trial.findings, console);
        write_bids_motion(trial.trace, options.output.output);
        return exit_done;
    }
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
