#include "cli/command.hpp"
#include "cli/output_options.hpp"
#include "cli/setting_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/analysis/range_extents.hpp>
#include <jointrom/analysis/trial.hpp>
#include <jointrom/batch/results_folder.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/norms/measured_person.hpp>
#include <jointrom/report/check_tables.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <memory>
#include <utility>

namespace jointrom::cli {
namespace {

struct CheckOptions {
    std::vector<std::string> files;
    std::string value, u, results;
    std::string sex, age, mode, against, source, norms;
    std::string rule = "guarded", figure = "extreme";
    bool tasks = false;
    SettingOptions settings;
    OutputOptions output;
};

/// What was measured, before it is judged.
struct Measurements {
    std::vector<MeasuredPerson> people;
    bool is_class = false;
    CommonTo common = CommonTo::this_value;  ///< what left and right were measured with
};

PersonDefaults stated_person(const CheckOptions& options, Findings& findings) {
    PersonDefaults person;
    if (!options.sex.empty()) {
        person.sex = sex_named(options.sex);
    }
    if (!options.age.empty()) {
        person.age_years = number_setting("--age", options.age);
    }
    person.mode = options.mode.empty() ? MotionMode::active : mode_named(options.mode);
    if (options.mode.empty()) {
        findings.emplace_back("mode-assumed", "taken as active: moved by the person");
    }
    return person;
}

/// One way of saying what is to be judged, not two and not none.
void check_form(const CheckOptions& options) {
    const int forms =
        (options.files.empty() ? 0 : 1) + (options.value.empty() ? 0 : 1) + (options.results.empty() ? 0 : 1);
    if (forms != 1) {
        throw Failure(FailureKind::usage, "check-what",
                      forms == 0 ? "nothing to check" : "recordings, --value-deg and --results exclude each other",
                      "Give one or more recordings; or --value-deg with --u-deg, --joint and --motion; or --results "
                      "FILE with a table of results.");
    }
    if (!options.u.empty() && options.value.empty()) {
        throw Failure(FailureKind::usage, "check-what",
                      "--u-deg is the uncertainty of a --value-deg, and there is none",
                      "Recordings and tables have uncertainties of their own.");
    }
}

void refuse_results(const std::vector<std::string>& files) {
    for (const std::string& file : files) {
        if (file != "-" && holds_measured_people(file)) {
            throw Failure(FailureKind::usage, "check-what", "the file is a table of results, not a recording",
                          fmt::format("Judge its rows with --results {}.", file), {file});
        }
    }
}

MeasuredPerson person_of(const PersonDefaults& stated, std::string label, const JointMotion& motion, Side side) {
    return {.label = std::move(label),
            .motion = &motion,
            .side = side,
            .sex = stated.sex,
            .age_years = stated.age_years,
            .mode = stated.mode};
}

MeasuredPerson person_of_value(const CheckOptions& options, const PersonDefaults& stated, const Settings& settings) {
    if (settings.joint.empty() || settings.motion.empty()) {
        throw Failure(FailureKind::usage, "check-what", "a value needs --joint and --motion",
                      "Name both, such as --joint elbow --motion flexion.");
    }
    const NamedPart named = motion_part(settings.joint, settings.motion);
    MeasuredExtent measured{.part = named.part, .extent = Degrees(number_setting("--value-deg", options.value))};
    if (options.u.empty()) {
        assume_usual_error(*named.motion, measured);
    } else {
        measured.budget =
            stated_budget(positive_setting("--u-deg", options.u), std::numeric_limits<double>::quiet_NaN());
    }
    check_plausible(*named.motion, measured);
    MeasuredPerson person = person_of(stated, "value", *named.motion, settings.preparation.side);
    person.extents.push_back(std::move(measured));
    return person;
}

/// The built-in entry for the motion of a trace; norms are told apart by it.
const JointMotion& known_motion(const AngleTrace& trace, const std::string& file) {
    if (!trace.motion().is_known()) {
        throw Failure(FailureKind::usage, "joint-unknown", "whose angle this is, the recording does not say",
                      "Name the joint, such as --joint elbow.", {file});
    }
    return joint_motion(trace.motion().joint, trace.motion().motion);
}

MeasuredPerson person_of_recording(const std::string& file, const CheckOptions& options, const PersonDefaults& stated,
                                   const Settings& settings, Report& report, Console& console) {
    options.output.watch(file);
    const Trial trial = prepare_trial(file, console.in, settings);
    const JointMotion& motion = known_motion(trial.trace, file);
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    const Repetitions found = repetitions(trial.trace, phases, {.with_smoothness = false});
    const RangeOfMotion range =
        range_of_motion(trial.trace, found.rows, still_postures(trial.trace, settings.stillness));
    report.inputs.push_back(options.output.input(file, trial.recording.table.rows));
    for (const Findings* findings : {&trial.findings, &found.findings, &range.findings}) {
        for (Finding finding : *findings) {
            finding.place.file = options.files.size() > 1 ? file : finding.place.file;
            report.findings.push_back(std::move(finding));
        }
    }
    MeasuredPerson person = person_of(stated, file, motion, trial.trace.side());
    person.extents = measured_extents(range, range_figure_named(options.figure));
    if (person.extents.empty()) {
        throw Failure(FailureKind::unreadable_data, "figure-missing",
                      "the recording has no " +
                          std::string(options.figure == "held" ? "posture held at either end" : "repetition"),
                      "Judge the farthest angles with --figure extreme.", {file});
    }
    const auto part = settings.motion.empty() ? std::nullopt : find_part(motion, settings.motion);
    if (part && *part != MotionPart::arc) {
        std::erase_if(person.extents, [&](const MeasuredExtent& measured) { return measured.part != *part; });
    }
    for (const MeasuredExtent& measured : person.extents) {
        report.budgets.emplace_back(fmt::format("{}, {}", file, name_of(measured.part, motion)), measured.budget);
    }
    return person;
}

Measurements measured(const CheckOptions& options, const Settings& settings, Report& report, Console& console) {
    check_form(options);
    const PersonDefaults stated = stated_person(options, report.findings);
    Measurements result;
    if (!options.value.empty()) {
        result.people.push_back(person_of_value(options, stated, settings));
        report.title = "value against normal range";
        return result;
    }
    result.is_class = !options.results.empty() || options.files.size() > 1;
    if (!options.results.empty()) {
        const std::string results = results_table_named(options.results);
        MeasuredPeople read = read_measured_people(results, stated);
        result.people = std::move(read.people);
        report.inputs.push_back(options.output.input(results, read.rows));
        report.findings.insert(report.findings.end(), read.findings.begin(), read.findings.end());
        report.title = fmt::format("results against normal ranges ({})", results);
        return result;
    }
    refuse_results(options.files);
    for (const std::string& file : options.files) {
        result.people.push_back(person_of_recording(file, options, stated, settings, report, console));
    }
    result.common = settings.calibration_file.empty() ? CommonTo::this_value : CommonTo::calibration;
    report.title = options.files.size() == 1 ? fmt::format("recording against normal range ({})", options.files.front())
                                             : "recordings against normal ranges";
    return result;
}

JudgingOptions judging(const CheckOptions& options) {
    JudgingOptions result{.rule = decision_rule_named(options.rule), .source = options.source};
    if (!options.against.empty()) {
        result.against = mode_named(options.against);
    }
    return result;
}

void add_tasks(const Measurements& measurements, Report& report) {
    report.tables.push_back(task_table(measurements.people, measurements.is_class));
    if (report.tables.back().rows().empty()) {
        report.findings.emplace_back("tasks-need-both-ends", "daily tasks need both ends of the range");
    }
}

void add_findings(const std::vector<JudgedPerson>& people, Report& report) {
    for (const JudgedPerson& judged : people) {
        for (const ExtentJudgement& extent : judged.extents) {
            for (const Finding& finding : extent.findings) {
                if (std::ranges::find(report.findings, finding) == report.findings.end()) {
                    report.findings.push_back(finding);
                }
            }
        }
    }
}

ExitStatus run_check(const CheckOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const JudgingOptions how = judging(options);
    Report report;
    report.schema = "jointrom-check";
    const NormTable own = options.norms.empty() ? built_in_norms() : read_norm_table(options.norms);
    const Measurements measurements = measured(options, settings, report, console);
    report.settings = options.settings.in_force(settings);
    report.settings.insert(report.settings.end(), {{"rule", name_of(how.rule)}, {"norms", own.name()}});

    std::vector<JudgedPerson> people;
    for (const MeasuredPerson& person : measurements.people) {
        people.push_back(judge_person(own, person, how));
    }
    add_findings(people, report);
    report.tables = {measurements.is_class ? class_judgement_table(people) : judgement_table(people.front()),
                     norm_used_table(people)};
    const std::vector<SidePair> sides = side_pairs(measurements.people, measurements.common);
    report.tables.push_back(side_table(sides));
    if (options.tasks) {
        add_tasks(measurements, report);
    }
    if (!measurements.is_class) {
        for (const ExtentJudgement& extent : people.front().extents) {
            report.remarks.push_back(verdict_sentence(extent));
        }
    }
    for (const SidePair& pair : sides) {
        if (pair.comparison.is_larger || options.results.empty()) {
            report.remarks.push_back(side_sentence(pair));
        }
    }
    report.remarks.push_back(fmt::format("Decision rule {}.", name_of(how.rule)));
    report.remarks.emplace_back(caution_line());
    options.output.write(report, console);
    const bool outside = std::ranges::any_of(people, &JudgedPerson::is_outside);
    const bool judged = std::ranges::any_of(people, &JudgedPerson::has_judgement);
    return outside || !judged ? exit_not_met : exit_done;
}

}  // namespace

Action attach_check(OptionList& list) {
    auto options = std::make_shared<CheckOptions>();
    list.arguments("files", options->files, "FILE",
                   "recordings of one person, as the logger exported them; - for standard input");
    list.group("Judging");
    list.value("--value-deg,--value", options->value, "D",
               "a value in degrees instead of a recording, beyond neutral in the direction that --motion names");
    list.value("--u-deg,--u", options->u, "U", "standard uncertainty of the value, in degrees");
    list.value("--results", options->results, "FILE",
               "a table of results instead of recordings, a row for each; or the folder that batch wrote");
    list.value("--sex", options->sex, "SEX", "F or M").suggest({"F", "M"});
    list.value("--age,--age-years", options->age, "YEARS", "age in years");
    list.value("--mode", options->mode, "MODE", "how it was measured: active or passive")
        .suggest({"active", "passive"})
        .otherwise("active");
    list.value("--against", options->against, "MODE", "judge by active or passive rows, whatever was measured")
        .suggest({"active", "passive"});
    list.value("--rule", options->rule, "RULE", "simple, guarded or probability; also guarded=0.99, probability=0.9")
        .suggest({"simple", "guarded", "probability"})
        .otherwise("guarded");
    list.value("--figure", options->figure, "WHICH", "what counts of a recording: extreme, held or mean")
        .one_of({"extreme", "held", "mean"})
        .otherwise("extreme");
    list.value("--source", options->source, "KEY", "judge by one source only; `norms` lists them");
    list.value("--norms", options->norms, "FILE", "a norm table of your own instead of the built-in one");
    list.flag("--tasks", options->tasks, "which daily tasks the range covers");
    options->settings.attach(list, {SettingGroup::reading, SettingGroup::joint, SettingGroup::angle,
                                    SettingGroup::phases, SettingGroup::stillness});
    options->output.attach(list, true);
    return [options](Console& console) { return run_check(*options, console); };
}

}  // namespace jointrom::cli
