#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/report/activity_tables.hpp>

#include <memory>

namespace jointrom::cli {
namespace {

struct ActivityCommand : TrialOptions {
    std::string by = "repetition";
    bool frequencies = false;
};

/// The table asked for comes first, since CSV holds that one; JSON holds all.
std::vector<ResultTable> tables_of(const ActivityResult& result, const ActivityCommand& options, Format format) {
    std::vector<ResultTable> tables{options.by == "phase"   ? activity_phase_table(result)
                                    : options.by == "burst" ? burst_table(result)
                                                            : activity_table(result)};
    if (format == Format::json) {
        for (ResultTable table : {activity_table(result), activity_phase_table(result), burst_table(result)}) {
            if (table.name() != tables.front().name()) {
                tables.push_back(std::move(table));
            }
        }
    }
    tables.push_back(muscle_table(result));
    tables.push_back(co_contraction_table(result));
    if (options.frequencies || format == Format::json) {
        tables.push_back(frequency_table(result));
        tables.push_back(fatigue_table(result));
    }
    tables.push_back(treatment_table(result));
    return tables;
}

ExitStatus run_activity(const ActivityCommand& options, Console& console) {
    const Settings settings = options.settings.settings();
    const Trial trial = options.trial(settings, console);
    const Format format = options.output.chosen_format(Format::table);
    const FrequencyWish frequencies = options.frequencies      ? FrequencyWish::required
                                      : format == Format::json ? FrequencyWish::where_possible
                                                               : FrequencyWish::none;
    const TrialActivity found = measure_activity(trial, settings, console.in, frequencies);
    Report report = options.report(trial, settings, "jointrom-activity", "muscle activity");
    for (const auto& [file, rows] : found.files) {
        report.inputs.push_back(options.output.input(file, rows));
    }
    report.findings.insert(report.findings.end(), found.findings.begin(), found.findings.end());
    report.tables = tables_of(found.activity, options, format);
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_activity(OptionList& list) {
    auto options = std::make_shared<ActivityCommand>();
    options->attach(list, {SettingGroup::activity, SettingGroup::phases});
    list.group("Output")
        .value("--by", options->by, "ROWS", "repetition: a row for each repetition and phase; or phase, or burst")
        .one_of({"repetition", "phase", "burst"})
        .otherwise("repetition");
    list.group("Output").flag("--frequencies", options->frequencies,
                              "median and mean frequency, and their fall as a muscle tires");
    return [options](Console& console) { return run_activity(*options, console); };
}

}  // namespace jointrom::cli
