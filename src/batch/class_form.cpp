#include "batch/class_form.hpp"

#include <jointrom/core/natural_order.hpp>

#include <algorithm>
#include <map>

namespace jointrom {

std::size_t column_of(std::span<const RowColumn> columns, std::string_view key) {
    const auto found = std::ranges::find_if(columns, [&](const RowColumn& column) { return column.kind->key == key; });
    return static_cast<std::size_t>(found - columns.begin());
}

std::vector<ClassMember> class_members(const ClassResults& results) {
    std::map<std::string, ClassMember, decltype(&natural_less)> by_name(&natural_less);
    for (std::size_t i = 0; i < results.outcomes.size(); ++i) {
        const TrialSubject& subject = results.outcomes[i].row.subject;
        const std::string& name = subject.participant.empty() ? subject.file : subject.participant;
        ClassMember& member = by_name[name];
        member.name = name;
        member.recordings.push_back(i);
    }
    std::vector<ClassMember> members;
    for (auto& [name, member] : by_name) {
        members.push_back(std::move(member));
    }
    return members;
}

std::string card_id(std::size_t member) {
    return "participant-" + std::to_string(member + 1);
}

std::string recording_label(const TrialSubject& subject) {
    std::string label = subject.side;
    if (!subject.joint.empty()) {
        label += (label.empty() ? "" : " ") + subject.joint;
    }
    const auto add = [&](const std::string& text) { label += (label.empty() ? "" : ", ") + text; };
    if (!subject.condition.empty()) {
        add(subject.condition);
    }
    if (!subject.trial.empty()) {
        add("trial " + subject.trial);
    }
    if (!subject.rater.empty()) {
        add("by " + subject.rater);
    }
    return label.empty() ? subject.file : label;
}

namespace {

bool is_warning(const std::vector<Cell>& finding) {
    static const std::size_t severity = column_of(finding_columns(), "severity");
    const auto* const text = std::get_if<std::string>(&finding[severity]);
    return text != nullptr && *text != "note";
}

bool has_several_motions(const ClassResults& results) {
    std::map<std::string, std::string> motions;
    return !std::ranges::all_of(results.outcomes, [&](const TrialOutcome& outcome) {
        const TrialSubject& subject = outcome.row.subject;
        return subject.motion.empty() ||
               motions.try_emplace(subject.joint, subject.motion).first->second == subject.motion;
    });
}

std::vector<std::pair<std::string_view, std::string>> headings_of(const ClassResults& results) {
    std::vector<std::pair<std::string_view, std::string>> headings{{"mean_arc_sd_deg", "SD of arc"}};
    const auto add_common = [&](std::string_view key, std::string TrialRow::*direction) {
        std::string common;
        for (const TrialOutcome& outcome : results.outcomes) {
            const std::string& own = outcome.row.*direction;
            if (!own.empty() && !common.empty() && own != common) {
                return;
            }
            common = own.empty() ? common : own;
        }
        if (!common.empty()) {
            headings.emplace_back(key, common);
        }
    };
    add_common("positive_deg", &TrialRow::positive_direction);
    add_common("negative_deg", &TrialRow::negative_direction);
    return headings;
}

}  // namespace

ClassForm class_form(const ClassResults& results) {
    return {has_several_motions(results), headings_of(results)};
}

ResultTable recording_table(const ClassResults& results, const ClassForm& form,
                            const std::vector<std::size_t>& recordings) {
    ResultTable table("recordings", {"participant", "joint", "motion", "side", "condition", "trial", "rater", "load_kg",
                                     "positive_deg", "negative_deg", "arc_deg", "repetitions", "mean_arc_deg",
                                     "mean_arc_sd_deg", "peak_velocity_deg_s", "warnings", "status"});
    for (const std::size_t recording : recordings) {
        const TrialOutcome& outcome = results.outcomes[recording];
        const TrialRow& row = outcome.row;
        const TrialSubject& s = row.subject;
        const auto warnings = static_cast<std::size_t>(std::ranges::count_if(outcome.findings, is_warning));
        table.add_row({s.participant.empty() ? s.file : s.participant, s.joint,
                       form.has_several_motions ? s.motion : "", s.side, s.condition, s.trial, s.rater, s.load_kg,
                       row.positive, row.negative, row.arc, row.done ? count_cell(row.repetitions) : Cell(),
                       row.mean_arc_deg, row.mean_arc_sd_deg, row.peak_velocity_deg_s,
                       row.done ? count_cell(warnings) : Cell(), std::string(row.done ? "measured" : "failed")});
    }
    return table;
}

}  // namespace jointrom
