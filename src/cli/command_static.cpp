#include "cli/command.hpp"
#include "cli/trial_options.hpp"

#include "analysis/setting_text.hpp"

#include <jointrom/report/movement_tables.hpp>

#include <memory>
#include <utility>

namespace jointrom::cli {
namespace {

struct StaticOptions : TrialOptions {
    std::string expected;
    std::string matching = "order";
};

ExitStatus run_static(const StaticOptions& options, Console& console) {
    const Settings settings = options.settings.settings();
    const std::vector<double> expected_deg =
        options.expected.empty() ? std::vector<double>() : number_list_setting("--expected-deg", options.expected);
    const PostureMatching matching = options.matching == "order" ? PostureMatching::in_order : PostureMatching::nearest;
    const Trial trial = options.trial_of_angle(settings, console);
    const auto postures = still_postures(trial.trace, settings.stillness);

    Report report = options.report(trial, settings, "jointrom-static", "still postures");
    report.tables.push_back(posture_table(postures));
    if (postures.empty()) {
        report.findings.emplace_back("no-still-posture", "nothing was held still");
    }
    bool all_held = true;
    if (!expected_deg.empty()) {
        const ExpectedMatches matches = match_expected(postures, expected_deg, matching);
        report.tables.insert(report.tables.begin(), expected_table(postures, matches));
        all_held = matches.findings.empty();
        report.findings.insert(report.findings.end(), matches.findings.begin(), matches.findings.end());
    }
    for (std::size_t i = 0; i < postures.size(); ++i) {
        report.budgets.push_back({"posture " + std::to_string(i + 1), postures[i].budget});
    }
    options.output.write(report, console);
    return all_held ? exit_done : exit_not_met;
}

}  // namespace

Action attach_static(OptionList& list) {
    auto options = std::make_shared<StaticOptions>();
    options->attach(list, {SettingGroup::stillness}, true);
    list.group("Expected postures");
    list.value("--expected-deg", options->expected, "LIST",
               "angles in degrees that should have been held, such as 0,45,90");
    list.value("--match", options->matching, "HOW", "fit postures to expected angles by order or to the nearest")
        .one_of({"order", "nearest"})
        .otherwise("order");
    return [options](Console& console) { return run_static(*options, console); };
}

}  // namespace jointrom::cli
