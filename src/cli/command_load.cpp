#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/analysis/active_muscles.hpp>
#include <jointrom/analysis/measure_activity.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/load/load_request.hpp>
#include <jointrom/report/load_tables.hpp>

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <utility>

namespace jointrom::cli {
namespace {

struct LoadOptions : TrialOptions {
    std::map<std::string, std::string> texts;  ///< what was typed, by name of the option; empty when it was not
    std::vector<std::string> load_kg;
    std::vector<std::string> load_at_m;
    bool quasi_static = false;
    bool series = false;
    bool activity = false;

    [[nodiscard]] double number(const std::string& name, double otherwise) const {
        const std::string& typed = texts.at(name);
        return typed.empty() ? otherwise : number_setting(name, typed);
    }
};

std::vector<double> numbers(std::string_view name, const std::vector<std::string>& texts) {
    std::vector<double> values;
    for (const std::string& text : texts) {
        values.push_back(number_setting(name, text));
    }
    return values;
}

std::string joined(const std::vector<std::string>& texts) {
    std::string text;
    for (const std::string& one : texts) {
        text += (text.empty() ? "" : ",") + one;
    }
    return text;
}

LoadRequest request_of(const LoadOptions& options) {
    LoadRequest request;
    request.body = {.mass_kg = options.number("--body-mass-kg", request.body.mass_kg),
                    .height_m = options.number("--height-m", request.body.height_m)};
    if (const std::string set = options.texts.at("--segments"); !set.empty()) {
        request.segments = set;
    }
    request.segment_kg = options.number("--segment-kg", request.segment_kg);
    request.segment_at_m = options.number("--segment-at-m", request.segment_at_m);
    request.load_kg = numbers("--load-kg", options.load_kg);
    request.load_at_m = numbers("--load-at-m", options.load_at_m);
    request.load_u_kg = options.number("--load-u-kg", request.load_u_kg);
    request.load_at_u_m = options.number("--load-at-u-m", request.load_at_u_m);
    request.posture = options.texts.at("--posture");
    request.posture_angle = Degrees(options.number("--posture-deg", request.posture_angle.value()));
    request.posture_u = Degrees(options.number("--posture-u-deg", request.posture_u.value()));
    request.gravity_m_s2 = options.number("--gravity-m-s2", request.gravity_m_s2);
    request.quasi_static = options.quasi_static;
    return request;
}

std::optional<MuscleAttachment> muscle_of(const LoadOptions& options) {
    const std::string arm = options.texts.at("--moment-arm-m");
    if (arm.empty()) {
        if (!options.texts.at("--pull-deg").empty()) {
            throw Failure(FailureKind::usage, "moment-arm-missing", "--pull-deg needs --moment-arm-m",
                          "Say how far from the joint the muscle takes hold, such as --moment-arm-m 0.04.");
        }
        return std::nullopt;
    }
    return muscle_attachment(number_setting("--moment-arm-m", arm),
                             Degrees(options.number("--pull-deg", Degrees().value())));
}

void add_settings(const LoadOptions& options, Report& report) {
    report.settings.emplace_back("load_kg", joined(options.load_kg));
    report.settings.emplace_back("load_at_m", joined(options.load_at_m));
    for (const auto& [name, typed] : options.texts) {
        std::string key = name.substr(2);
        std::ranges::replace(key, '-', '_');
        report.settings.emplace_back(std::move(key), typed);
    }
    report.settings.emplace_back("quasi_static", options.quasi_static ? "true" : "false");
}

ExitStatus run_load(const LoadOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const LoadRequest request = request_of(options);
    const std::string rows = options.texts.at("--by");
    const Format form = options.output.chosen_format(options.series ? Format::csv : Format::table);
    if (options.series && form == Format::table) {
        throw Failure(FailureKind::usage, "format-unknown", "--format is table, expected csv or json for a series");
    }
    const std::optional<MuscleAttachment> muscle = muscle_of(options);
    const Trial trial = options.trial(settings, console);
    Report report = options.report(trial, settings, "jointrom-load", "load on the joint");
    const LoadModel model = load_model(trial.trace.motion(), request, report.findings);
    const MovementPhases phases = movement_phases(trial.trace, settings.phases);
    const Repetitions found = repetitions(trial.trace, phases, {.with_smoothness = false});
    const JointLoad load = joint_load(trial.trace, model, phases.phases, found.rows);
    LoadView view{trial.trace, model, load, muscle};
    if (options.activity) {
        const TrialActivity measured = measure_activity(trial, settings, console.in);
        view.active_muscles = active_muscles(measured.activity, load.phases.size());
        report.findings.insert(report.findings.end(), measured.activity.findings.begin(),
                               measured.activity.findings.end());
    }

    add_settings(options, report);
    report.findings.insert(report.findings.end(), found.findings.begin(), found.findings.end());
    report.findings.insert(report.findings.end(), load.findings.begin(), load.findings.end());
    if (form != Format::table) {
        report.findings.emplace_back("load-estimate", "an estimate for teaching, no advice on training or treatment");
    }
    if (options.series) {
        options.output.write(report.findings, console, [&](const TextSink& sink) {
            if (form == Format::csv) {
                load_series_csv(view, sink);
            } else {
                sink(load_series_json(view, report));
            }
        });
        return exit_done;
    }
    report.tables = {load_phase_table(view), load_repetition_table(view), load_summary_table(view)};
    if (rows == "repetition") {
        std::swap(report.tables[0], report.tables[1]);
    }
    const std::vector<std::string> remarks = load_remarks(view);
    report.remarks.insert(report.remarks.begin(), remarks.begin(), remarks.end());
    report.budgets = load_budgets(view);
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_load(OptionList& list) {
    auto options = std::make_shared<LoadOptions>();
    const auto add = [&](const char* name, const char* type, const char* help) {
        return list.value(name, options->texts[name], type, help);
    };
    list.group("What hangs on the joint");
    list.values("--load-kg", options->load_kg, "M", "mass of a load, held or strapped on, in kg");
    list.values("--load-at-m", options->load_at_m, "L", "its distance from the joint's axis, in m; one for each load");
    add("--load-u-kg", "U", "standard uncertainty of a load's mass, in kg; otherwise 2 % at most");
    add("--load-at-u-m", "U", "standard uncertainty of its distance, in m; otherwise 0.01 m at most");
    add("--body-mass-kg", "M", "mass of the body in kg, for the limb's own weight");
    add("--height-m", "H", "height of the body, in m");
    add("--segments", "SET", "parameters of the limb: winter, de-leva-female, de-leva-male, or none to leave it out")
        .suggest({"winter", "de-leva-female", "de-leva-male", "none"});
    add("--segment-kg", "M", "mass of the limb beyond the joint in kg, if it is known");
    add("--segment-at-m", "L", "distance of its centre of mass from the joint, in m");
    list.group("How it moves");
    add("--posture", "NAME", "how the near part is held: hanging, sitting, supine, ...; docs/methods/joint-load.md");
    add("--posture-deg", "A", "the limb in neutral: degrees from hanging, in the positive direction of the motion");
    add("--posture-u-deg", "U", "standard uncertainty of that, in degrees");
    add("--gravity-m-s2", "G", "gravity, in m/s2").otherwise("9.80665");
    list.flag("--quasi-static", options->quasi_static, "leave the acceleration out, as if held still");
    list.group("Muscle force");
    add("--moment-arm-m", "R", "distance at which a muscle pulls, in m, such as 0.04");
    add("--pull-deg", "A", "angle between muscle and bone, in degrees; adds the force in the joint");
    list.group("Muscle activity");
    list.flag("--activity", options->activity, "name the muscles that were active in each phase, from their EMG");
    options->attach(list, {SettingGroup::activity, SettingGroup::phases}, true);
    list.group("Output");
    add("--by", "ROWS", "phase or repetition: which rows CSV holds").one_of({"phase", "repetition"}).otherwise("phase");
    list.flag("--series", options->series, "moment, power and energy over time instead");
    return [options](Console& console) { return run_load(*options, console); };
}

}  // namespace jointrom::cli
