#include "cli/command.hpp"
#include "cli/norm_options.hpp"
#include "cli/output_options.hpp"

#include <jointrom/analysis/settings.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/report/norm_tables.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <memory>
#include <utility>

namespace jointrom::cli {
namespace {

struct NormsOptions {
    std::string action = "list";
    std::string joint;   ///< as a word behind the action
    std::string motion;  ///< as a word behind the joint
    NormOptions norms;
    OutputOptions output;
};

/// Says so when entries that are shown were not read anywhere.
template <typename Entry>
void note_memory(const std::vector<const Entry*>& entries, Report& report) {
    const auto count = std::ranges::count(entries, Provenance::memory, &Entry::provenance);
    if (count > 0) {
        report.findings.emplace_back("norm-from-memory",
                                     fmt::format("from memory: {} of {} entries", count, entries.size()));
    }
}

using Rows = std::vector<const NormRow*>;

std::vector<NamedPart> wanted_parts(const NormsOptions& options) {
    return filtered_parts(options.norms.table(), options.norms.filter());
}

void list_rows(const NormsOptions& options, Report& report) {
    const NormTable& table = options.norms.table();
    const Rows rows = filtered_norms(table, options.norms.filter());
    report.title = fmt::format("{} of {} rows, {}", rows.size(), table.rows().size(), table.name());
    const bool for_reading = options.output.chosen_format(Format::table) == Format::table;
    report.tables.push_back(for_reading ? norm_overview_table(rows) : norm_table(table, rows));
    report.findings = memory_findings(rows);
    if (rows.empty()) {
        report.remarks.emplace_back("No row fits; `norms gaps` shows what is covered.");
        return;
    }
    report.remarks = citations(table, rows);
    report.remarks.emplace_back("The normal range holds most people of the group; it is not the interval of the mean.");
}

void list_sources(const NormsOptions& options, Report& report) {
    const NormTable& table = options.norms.table();
    const auto sources = options.norms.file.empty() ? built_in_sources() : table.sources();
    report.title = fmt::format("{} sources, {}", sources.size(), table.name());
    report.tables.push_back(norm_source_table(sources));
}

void list_gaps(const NormsOptions& options, Report& report) {
    const NormTable& table = options.norms.table();
    report.title = fmt::format("what is covered, {}", table.name());
    report.tables.push_back(norm_coverage_table(norm_coverage(table, options.norms.filter())));
    report.remarks = {"Ages in completed years from 0 to 99. 'any age' is a single number for everybody."};
}

void compare_sources(const NormsOptions& options, Report& report) {
    if (options.norms.joint.empty() || options.norms.motion.empty()) {
        throw Failure(FailureKind::usage, "motion-missing", "a joint and a motion are needed to compare sources",
                      "For example: jointrom norms compare elbow flexion");
    }
    const NormTable& table = options.norms.table();
    const Rows rows = filtered_norms(table, options.norms.filter());
    const auto differences = norm_differences(rows);
    report.title = fmt::format("{} {}: {} rows, {} pairs of sources that can be compared", options.norms.joint,
                               options.norms.motion, rows.size(), differences.size());
    report.tables.push_back(norm_difference_table(differences));
    report.tables.push_back(norm_overview_table(rows));
    report.findings = memory_findings(rows);
    report.remarks = citations(table, rows);
    report.remarks.emplace_back("Active and passive motion are never compared with each other.");
}

void list_tasks(const NormsOptions& options, Report& report) {
    std::vector<const FunctionalArc*> arcs;
    for (const NamedPart& wanted : wanted_parts(options)) {
        const auto more = functional_arcs(*wanted.motion, wanted.part);
        arcs.insert(arcs.end(), more.begin(), more.end());
    }
    report.title = fmt::format("{} daily tasks", arcs.size());
    report.tables.push_back(functional_arc_table(arcs));
    note_memory(arcs, report);
    report.remarks = {"Angles on the joint's axis: 0 in neutral, the second direction of the motion negative."};
}

void list_errors(const NormsOptions& options, Report& report) {
    std::vector<const MeasurementError*> errors;
    for (const NamedPart& wanted : wanted_parts(options)) {
        for (const MeasurementError* const error : measurement_errors(*wanted.motion, wanted.part)) {
            if (std::ranges::find(errors, error) == errors.end()) {
                errors.push_back(error);
            }
        }
    }
    report.title = fmt::format("{} published measurement errors", errors.size());
    report.tables.push_back(measurement_error_table(errors));
    note_memory(errors, report);
}

void list_joints(const NormsOptions& options, Report& report) {
    std::vector<const JointMotion*> motions;
    for (const NamedPart& wanted : wanted_parts(options)) {
        motions.push_back(wanted.motion);
    }
    report.title = fmt::format("{} joint motions", motions.size());
    report.tables.push_back(joint_table(motions));
}

struct NormsAction {
    std::string_view name;
    void (*run)(const NormsOptions& options, Report& report);
};

constexpr auto actions = std::to_array<NormsAction>({{"list", list_rows},
                                                     {"sources", list_sources},
                                                     {"gaps", list_gaps},
                                                     {"compare", compare_sources},
                                                     {"tasks", list_tasks},
                                                     {"errors", list_errors},
                                                     {"joints", list_joints}});

const NormsAction& action_named(const std::string& name) {
    const auto found = std::ranges::find(actions, name, &NormsAction::name);
    if (found != actions.end()) {
        return *found;
    }
    std::vector<std::string_view> names;
    for (const NormsAction& action : actions) {
        names.push_back(action.name);
    }
    std::vector<std::string> all(names.begin(), names.end());
    std::ranges::copy(joint_choices(), std::back_inserter(all));
    const auto meant = nearest(name, std::vector<std::string_view>(all.begin(), all.end()));
    throw Failure(FailureKind::usage, "norms-action-unknown", fmt::format("norms cannot '{}'", name),
                  (meant ? fmt::format("Did you mean '{}'? ", *meant) : std::string()) +
                      fmt::format("Known: {}, or a joint.", fmt::join(names, ", ")));
}

/// A joint or motion stated as a word and with an option must not differ.
void take_word(const std::string& word, std::string& option, std::string_view name) {
    if (!word.empty() && !option.empty() && word != option) {
        throw Failure(FailureKind::usage, "stated-twice", fmt::format("'{}' and {} {} differ", word, name, option),
                      "Name it once.");
    }
    option = word.empty() ? option : word;
}

/// "norms elbow flexion" is another way to say "norms list elbow flexion".
void take_joint_for_action(NormsOptions& options) {
    const bool is_joint =
        std::ranges::find(joint_motions(), options.action, &JointMotion::joint) != joint_motions().end();
    if (is_joint && options.motion.empty()) {
        options.motion = std::exchange(options.joint, std::exchange(options.action, "list"));
    }
}

ExitStatus run_norms(NormsOptions options, Console& console) {
    take_joint_for_action(options);
    take_word(options.joint, options.norms.joint, "--joint");
    take_word(options.motion, options.norms.motion, "--motion");
    Report report;
    report.schema = "jointrom-norms";
    action_named(options.action).run(options, report);
    if (!options.norms.file.empty()) {
        report.inputs.push_back(options.output.input(options.norms.file, options.norms.table().rows().size()));
    }
    report.settings = {{"action", options.action},     {"norms", options.norms.file},
                       {"joint", options.norms.joint}, {"motion", options.norms.motion},
                       {"sex", options.norms.sex},     {"age_years", options.norms.age_years},
                       {"mode", options.norms.mode},   {"source", options.norms.source}};
    options.output.write(report, console);
    return exit_done;
}

}  // namespace

Action attach_norms(OptionList& list) {
    auto options = std::make_shared<NormsOptions>();
    list.argument("action", options->action, "ACTION", "list, sources, gaps, compare, tasks, errors or joints")
        .suggest({"list", "sources", "gaps", "compare", "tasks", "errors", "joints"})
        .otherwise("list");
    list.argument("joint", options->joint, "JOINT", "name of a joint, as --joint").suggest(joint_choices());
    list.argument("motion", options->motion, "MOTION", "name of a motion, as --motion").suggest(motion_choices());
    options->norms.attach(list, true);
    options->output.attach(list, false);
    return [options](Console& console) { return run_norms(*options, console); };
}

}  // namespace jointrom::cli
