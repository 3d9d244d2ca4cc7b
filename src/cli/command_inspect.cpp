#include "cli/command.hpp"
#include "cli/output_options.hpp"
#include "cli/setting_options.hpp"

#include <jointrom/analysis/trial.hpp>
#include <jointrom/recording/annotations.hpp>
#include <jointrom/recording/edf_recording.hpp>
#include <jointrom/report/inspection_tables.hpp>

#include <algorithm>
#include <memory>
#include <vector>

namespace jointrom::cli {
namespace {

struct InspectOptions {
    std::string file;
    SettingOptions settings;
    OutputOptions output;
};

/// Findings of reading and of every channel, each once; reading adds the place to what a channel shows too.
Findings all_findings(const Recording& recording, const std::vector<ChannelQuality>& qualities) {
    Findings findings = recording.findings;
    for (const ChannelQuality& quality : qualities) {
        for (const Finding& finding : quality.findings) {
            if (std::ranges::none_of(findings, [&](const Finding& known) {
                    return known.code() == finding.code() && known.text == finding.text;
                })) {
                findings.push_back(finding);
            }
        }
    }
    return findings;
}

ExitStatus run_inspect(const InspectOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    options.output.watch(options.file);
    const Recording recording = read_recording(options.file, console.in, settings);
    std::vector<ChannelQuality> qualities;
    for (const Channel& channel : recording.channels) {
        qualities.push_back(channel_quality(channel));
    }
    Report report;
    report.schema = "jointrom-inspect";
    report.title = options.file;
    report.tables = {channel_table(recording, qualities), file_table(recording)};
    if (recording.table.blocks.size() > 1) {
        report.tables.push_back(trial_table(recording.table));
    }
    const Annotations annotations = is_edf(options.file) ? read_annotations(options.file) : Annotations();
    if (!annotations.rows.empty()) {
        report.tables.push_back(annotation_table(annotations.rows));
    }
    report.remarks.emplace_back(recording.angle ? "* taken as the joint angle; another one with --angle COLUMN."
                                                : "No channel looks like a joint angle; name one with --angle COLUMN.");
    report.inputs.push_back(options.output.input(options.file, recording.table.rows));
    report.settings = options.settings.in_force(settings);
    report.findings = all_findings(recording, qualities);
    for (const Finding& finding : annotations.findings) {
        report.findings.emplace_back(finding.code(), finding.text, Place{options.file});
    }
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_inspect(OptionList& list) {
    auto options = std::make_shared<InspectOptions>();
    list.argument("file", options->file, "FILE", "the recording, as the logger exported it; - for standard input")
        .required();
    options->settings.attach(list, {SettingGroup::reading});
    options->output.attach(list, false);
    return [options](Console& console) { return run_inspect(*options, console); };
}

}  // namespace jointrom::cli
