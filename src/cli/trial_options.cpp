#include "cli/trial_options.hpp"

#include <fmt/format.h>

#include <utility>

namespace jointrom::cli {

void TrialOptions::attach(OptionList& list, std::vector<SettingGroup> more, Extent extent) {
    const auto argument =
        list.argument("file", file, "FILE", "the recording, as the logger exported it; - for standard input");
    if (extent.needs_file) {
        argument.required();
    }
    std::vector<SettingGroup> groups{SettingGroup::reading, SettingGroup::joint, SettingGroup::angle};
    groups.insert(groups.end(), more.begin(), more.end());
    settings.attach(list, std::move(groups));
    output.attach(list, extent.may_explain);
}

Trial TrialOptions::trial(const Settings& chosen, Console& console) const {
    output.watch(file);
    return prepare_trial(file, console.in, chosen);
}

Trial TrialOptions::trial_of_angle(const Settings& chosen, Console& console) const {
    Settings settings_of_angle = chosen;
    settings_of_angle.reading.angle_only = true;
    output.watch(file);
    return prepare_trial(file, console.in, settings_of_angle);
}

Report TrialOptions::report(const Trial& trial, const Settings& chosen, const std::string& schema,
                            const std::string& measured) const {
    const AngleTrace& trace = trial.trace;
    Report report;
    report.schema = schema;
    const JointMotion& motion = trace.motion();
    const std::string who = motion.is_known() ? fmt::format("{} {}", motion.joint, motion.motion) : "unknown joint";
    const std::string side = trace.side() == Side::unknown ? "" : fmt::format(", {}", name_of(trace.side()));
    report.title = fmt::format("{}: {}{} ({})", measured, who, side, file);
    report.inputs.push_back(output.input(file, trial.recording.table.rows));
    report.settings = settings.in_force(chosen);
    report.findings = trial.findings;
    if (output.explain) {
        report.remarks.emplace_back("Steps from reading to angle:");
        for (const std::string& step : trace.steps()) {
            report.remarks.push_back("  " + step);
        }
    }
    return report;
}

}  // namespace jointrom::cli
