#include "batch/class_cards.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/report/check_tables.hpp>
#include <jointrom/report/page_parts.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <unordered_map>

namespace jointrom {
namespace {

constexpr std::size_t most_arcs = 40;

std::string text_in(const Cell& cell) {
    const auto* const text = std::get_if<std::string>(&cell);
    return text == nullptr ? std::string() : *text;
}

double number_in(const Cell& cell) {
    const auto* const number = std::get_if<double>(&cell);
    const auto* const measured_value = std::get_if<Measured>(&cell);
    return number != nullptr           ? *number
           : measured_value != nullptr ? measured_value->value
                                       : std::numeric_limits<double>::quiet_NaN();
}

std::string person_in_words(const TrialSubject& subject) {
    std::string text = std::isnan(subject.age_years) ? "" : shortest_text(subject.age_years) + " years";
    if (!subject.sex.empty()) {
        text += (text.empty() ? "" : ", ") + std::string(subject.sex == "F"   ? "female"
                                                         : subject.sex == "M" ? "male"
                                                                              : subject.sex);
    }
    return text;
}

/// Who it is, and how far the joint went.
Markup heading_of(const ClassResults& results, const ClassForm& form, const ClassMember& member) {
    const std::string person = person_in_words(results.outcomes[member.recordings.front()].row.subject);
    return element("h3", member.name) + (person.empty() ? Markup() : element("p", {{"class", "soft"}}, person)) +
           table_markup(with_columns(recording_table(results, form, member.recordings),
                                     {"side", "joint", "motion", "condition", "trial", "rater", "load_kg",
                                      "positive_deg", "negative_deg", "arc_deg", "repetitions", "mean_arc_deg",
                                      "mean_arc_sd_deg", "peak_velocity_deg_s", "status"}),
                        {.caption = "How far the joint went", .headings = form.headings});
}

/// "left elbow: 146.8, 145.1, 144.0°".
std::string arcs_in_words(const TrialOutcome& outcome) {
    static const std::size_t arc = column_of(repetition_columns(), "arc_deg");
    std::string text;
    for (std::size_t i = 0; i < std::min(outcome.repetitions.size(), most_arcs); ++i) {
        text += (i == 0 ? "" : ", ") + fixed_text(number_in(outcome.repetitions[i][arc]), 1);
    }
    const std::size_t more = outcome.repetitions.size() - std::min(outcome.repetitions.size(), most_arcs);
    return fmt::format("{}: {}°{}", recording_label(outcome.row.subject), text,
                       more == 0 ? std::string() : fmt::format(" and {} more", more));
}

Markup repetitions_of(const ClassResults& results, const ClassMember& member) {
    std::vector<std::string> sentences;
    for (const std::size_t recording : member.recordings) {
        if (!results.outcomes[recording].repetitions.empty()) {
            sentences.push_back(arcs_in_words(results.outcomes[recording]));
        }
    }
    return sentences.empty() ? Markup() : element("h4", "Arc of each repetition") + list_of(sentences);
}

/// Mean over the repetitions of what a muscle did in a phase.
struct PhaseMeans {
    std::string unit;
    std::map<std::string, std::pair<double, double>> sums;  ///< by phase: sum and count

    [[nodiscard]] Cell mean(const std::string& phase) const {
        const auto found = sums.find(phase);
        return found == sums.end() ? Cell() : Cell(found->second.first / found->second.second);
    }
};

std::vector<std::pair<std::string, PhaseMeans>> muscles_in(const TrialOutcome& outcome) {
    static const std::size_t muscle = column_of(activity_columns(), "muscle");
    static const std::size_t phase = column_of(activity_columns(), "phase");
    static const std::size_t unit = column_of(activity_columns(), "activity_unit");
    static const std::size_t mean = column_of(activity_columns(), "activity_mean");
    std::vector<std::pair<std::string, PhaseMeans>> muscles;
    for (const std::vector<Cell>& row : outcome.activity) {
        const std::string name = text_in(row[muscle]);
        auto known = std::ranges::find(muscles, name, &std::pair<std::string, PhaseMeans>::first);
        if (known == muscles.end()) {
            known = muscles.insert(muscles.end(), {name, {text_in(row[unit]), {}}});
        }
        if (const double value = number_in(row[mean]); !std::isnan(value)) {
            auto& [sum, count] = known->second.sums[text_in(row[phase])];
            sum += value;
            count += 1.0;
        }
    }
    return muscles;
}

Markup muscles_of(const ClassResults& results, const ClassMember& member) {
    ResultTable table("muscles", {"recording", "muscle", "activity_unit", "raising_activity", "holding_activity",
                                  "lowering_activity"});
    for (const std::size_t recording : member.recordings) {
        const TrialOutcome& outcome = results.outcomes[recording];
        for (const auto& [muscle, means] : muscles_in(outcome)) {
            table.add_row({recording_label(outcome.row.subject), muscle, means.unit, means.mean("raising"),
                           means.mean("holding"), means.mean("lowering")});
        }
    }
    return table_markup(table, {.caption = "Muscles: mean activity in each phase, over the repetitions"});
}

/// What was compared, found by whose it is.
class Compared {
  public:
    explicit Compared(const ClassComparison& comparison) {
        for (const SidePair& pair : comparison.sides) {
            sides_[pair.participant].push_back(&pair);
        }
        for (const JudgedPerson& judged : comparison.judged) {
            judged_[judged.person.label] = &judged;
        }
    }

    [[nodiscard]] std::vector<std::string> sentences(const ClassResults& results, const ClassMember& member) const {
        std::vector<std::string> sentences;
        if (const auto pairs = sides_.find(member.name); pairs != sides_.end()) {
            for (const SidePair* const pair : pairs->second) {
                sentences.push_back(sides_in_words(*pair));
            }
        }
        for (const std::size_t recording : member.recordings) {
            const TrialSubject& subject = results.outcomes[recording].row.subject;
            const auto judged = judged_.find(subject.id);
            if (judged == judged_.end()) {
                continue;
            }
            for (const ExtentJudgement& extent : judged->second->extents) {
                sentences.push_back(recording_label(subject) + ": " + verdict_sentence(extent));
            }
        }
        return sentences;
    }

  private:
    [[nodiscard]] static std::string sides_in_words(const SidePair& pair) {
        SidePair unnamed = pair;
        unnamed.participant.clear();
        const std::string condition = pair.condition.empty() ? "" : ", " + pair.condition;
        return pair.motion->joint + condition + ", " + side_sentence(unnamed);
    }

    std::unordered_map<std::string, std::vector<const SidePair*>> sides_;  ///< by participant
    std::unordered_map<std::string, const JudgedPerson*> judged_;          ///< by id of the recording
};

/// Findings of all recordings; what several share is told once.
Markup findings_of(const ClassResults& results, const ClassMember& member) {
    static const std::size_t severity = column_of(finding_columns(), "severity");
    static const std::size_t code = column_of(finding_columns(), "code");
    static const std::size_t text = column_of(finding_columns(), "text");
    std::vector<ToldFinding> findings;
    const auto add = [&](ToldFinding finding, const std::string& label) {
        const auto same = std::ranges::find_if(findings, [&](const ToldFinding& other) {
            return other.code == finding.code && other.text == finding.text && other.severity == finding.severity;
        });
        if (same == findings.end()) {
            finding.place = label;
            findings.push_back(std::move(finding));
        } else {
            same->place += "; " + label;
        }
    };
    for (const std::size_t recording : member.recordings) {
        const TrialOutcome& outcome = results.outcomes[recording];
        const std::string label = recording_label(outcome.row.subject);
        if (!outcome.row.done) {
            add({"error", outcome.row.code, "not measured: " + outcome.row.reason, {}}, label);
        }
        for (const std::vector<Cell>& row : outcome.findings) {
            add({text_in(row[severity]), text_in(row[code]), text_in(row[text]), {}}, label);
        }
    }
    return findings.empty() ? Markup()
                            : element("h4", "Findings: " + findings_count(findings)) + findings_markup(findings);
}

}  // namespace

Markup class_cards(const ClassPage& page, const ClassForm& form, std::span<const ClassMember> members) {
    const Compared compared(page.comparison);
    Markup cards;
    for (std::size_t m = 0; m < members.size(); ++m) {
        const std::vector<std::string> comparisons = compared.sentences(page.results, members[m]);
        Markup content = heading_of(page.results, form, members[m]);
        content += comparisons.empty() ? Markup() : element("h4", "Compared") + list_of(comparisons);
        content += repetitions_of(page.results, members[m]);
        content += muscles_of(page.results, members[m]);
        content += findings_of(page.results, members[m]);
        cards += element("div", {{"class", "card"}, {"id", card_id(m)}}, content);
    }
    return cards;
}

}  // namespace jointrom
