#include "cli/command.hpp"
#include "cli/norm_options.hpp"
#include "cli/output_options.hpp"
#include "cli/setting_options.hpp"

#include <jointrom/analysis/measure_recording.hpp>
#include <jointrom/analysis/range_extents.hpp>
#include <jointrom/batch/page_of_class.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/file_stamp.hpp>
#include <jointrom/report/page_of_recording.hpp>

#include <fmt/ostream.h>

#include <filesystem>
#include <memory>

namespace jointrom::cli {
namespace {

struct ReportCommand {
    std::string source;
    std::string title;
    NormOptions norms;
    std::string against;
    SettingOptions settings;
    OutputOptions output;

    [[nodiscard]] bool wants_comparison() const {
        return !norms.sex.empty() || !norms.age_years.empty() || !norms.mode.empty() || !against.empty() ||
               !norms.source.empty() || !norms.file.empty();
    }
};

JudgingOptions judging(const ReportCommand& command) {
    JudgingOptions options{.source = command.norms.source};
    if (!command.against.empty()) {
        options.against = mode_named(command.against);
    }
    return options;
}

/// What the command line says of whoever was measured; moved by themselves unless it says otherwise.
PersonDefaults stated_person(const ReportCommand& command, Findings& findings) {
    const NormFilter filter = command.norms.filter();
    if (!filter.mode) {
        findings.emplace_back("mode-assumed", "taken as active: moved by the person");
    }
    return {.sex = filter.sex, .age_years = filter.age_years, .mode = filter.mode.value_or(MotionMode::active)};
}

JudgedPerson judged(const ReportCommand& command, const MeasuredRecording& measured, Findings& findings) {
    const AngleTrace& trace = measured.trial.trace;
    if (!trace.motion().is_known()) {
        throw Failure(FailureKind::usage, "joint-unknown", "whose angle this is, the recording does not say",
                      "Name the joint, such as --joint elbow.", {command.source});
    }
    const PersonDefaults stated = stated_person(command, findings);
    const MeasuredPerson person{.label = command.source,
                                .motion = &joint_motion(trace.motion().joint, trace.motion().motion),
                                .side = trace.side(),
                                .sex = stated.sex,
                                .age_years = stated.age_years,
                                .mode = stated.mode,
                                .extents = measured_extents(measured.range)};
    JudgedPerson result = judge_person(command.norms.table(), person, judging(command));
    for (const ExtentJudgement& extent : result.extents) {
        findings.insert(findings.end(), extent.findings.begin(), extent.findings.end());
    }
    return result;
}

std::string page_of_file(const ReportCommand& command, Findings& findings, Console& console) {
    const Settings settings = command.settings.settings();
    const auto stamp = find_file_stamp(std::filesystem::path(command.source));
    const MeasuredRecording measured =
        measure_recording(prepare_trial(command.source, console.in, settings), settings, console.in);
    Report report;
    report.title = command.title;
    const bool is_file = command.source != "-";
    report.inputs.push_back({command.source, is_file ? sha256_of_unchanged(command.source, stamp) : std::string(),
                             measured.trial.recording.table.rows});
    report.settings = command.settings.in_force(settings);
    report.findings = measured.findings;
    RecordingPage page{measured, report};
    if (command.wants_comparison()) {
        page.judged = judged(command, measured, report.findings);
    }
    findings = report.findings;
    return page_of_recording(page);
}

void refuse_settings(const SettingOptions& settings) {
    if (settings.in_force(settings.settings()) != settings.in_force({})) {
        throw Failure(FailureKind::usage, "settings-unused", "settings of a recording, but the source is a class",
                      "The class was measured with those that `batch` was given: run it again with other ones.");
    }
}

std::string page_of_folder(const ReportCommand& command, Findings& findings) {
    refuse_settings(command.settings);
    const ClassResults results = read_class_results(command.source);
    const std::vector<TrialRow> rows = results.rows();
    ClassComparisonOptions options;
    if (command.wants_comparison()) {
        options = {stated_person(command, findings), &command.norms.table(), judging(command)};
    }
    ClassComparison comparison = compare_class(rows, options);
    comparison.findings.insert(comparison.findings.begin(), findings.begin(), findings.end());
    findings = comparison.findings;
    return page_of_class({results, class_statistics(rows), comparison, command.title, options});
}

/// The name of the recording or folder with the ending of a page, in the present folder.
std::string default_output(const ReportCommand& command) {
    std::filesystem::path source(command.source);
    source = source.has_filename() ? source : source.parent_path();
    const std::string stem = command.source == "-" ? "recording" : source.stem().string();
    return stem + ".html";
}

/// A page never takes the place of what it tells about.
void refuse_overwriting(const ReportCommand& command) {
    std::error_code unknown;
    if (std::filesystem::equivalent(command.source, command.output.output, unknown)) {
        throw Failure(FailureKind::usage, "output-is-input", "the page would take the place of the recording",
                      "Name another file with --output.", {command.output.output});
    }
}

ExitStatus run_report(ReportCommand command, Console& console) {
    if (command.output.output.empty()) {
        command.output.output = default_output(command);
    }
    refuse_overwriting(command);
    Findings findings;
    const bool is_folder = std::filesystem::is_directory(command.source);
    const std::string page = is_folder ? page_of_folder(command, findings) : page_of_file(command, findings, console);
    command.output.write(findings, console, [&](const TextSink& sink) { sink(page); });
    if (command.output.output != "-") {
        fmt::print(console.out, "The page is in {}.\n", command.output.output);
    }
    return exit_done;
}

}  // namespace

Action attach_report(OptionList& list) {
    auto command = std::make_shared<ReportCommand>();
    list.argument("source", command->source, "FILE|RESULTS",
                  "a recording, as the logger exported it, or - for standard input; or a folder that `batch` wrote")
        .required();
    command->norms.attach(list, false);
    list.value("--against", command->against, "MODE", "compare with active or passive rows, whatever was measured")
        .suggest({"active", "passive"});
    command->settings.attach(list,
                             {SettingGroup::reading, SettingGroup::joint, SettingGroup::angle, SettingGroup::stillness,
                              SettingGroup::phases, SettingGroup::turning_points, SettingGroup::activity});
    list.group("Output");
    list.value("--title", command->title, "TEXT", "heading of the page");
    list.value("--output", command->output.output, "PAGE",
               "write to PAGE instead of the name of FILE or RESULTS with .html; - for standard output");
    list.flag("--quiet", command->output.quiet, "print no notes and warnings");
    return [command](Console& console) { return run_report(*command, console); };
}

}  // namespace jointrom::cli
