#include <jointrom/batch/class_comparison.hpp>

#include <jointrom/batch/class_statistics.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/table/byte_source.hpp>

#include <algorithm>
#include <array>
#include <map>
#include <utility>

namespace jointrom {
namespace {

/// Nothing for a row that cannot be compared.
std::optional<MeasuredPerson> person_of(const TrialRow& row, const PersonDefaults& defaults, Findings& findings) {
    if (!row.done || row.subject.joint.empty()) {
        return std::nullopt;
    }
    const std::string table = measured_trials_csv({&row, 1});
    const auto source = text_source(table);
    try {
        MeasuredPeople read = read_measured_people(*source, "trials.csv", defaults);
        if (!read.people.empty()) {
            MeasuredPerson& person = read.people.front();
            person.label = row.subject.id;  // texts as they are, not as they stand in CSV
            person.participant = row.subject.participant;
            person.condition = row.subject.condition;
            return std::move(person);
        }
    } catch (const Failure& failure) {
        findings.emplace_back("results-row-skipped", row.subject.file + ": " + failure.what());
    }
    return std::nullopt;
}

}  // namespace

ClassComparison compare_class(std::span<const TrialRow> rows, const ClassComparisonOptions& options) {
    ClassComparison result;
    std::vector<MeasuredPerson> people;
    for (const TrialRow& row : rows) {
        if (auto person = person_of(row, options.person, result.findings)) {
            people.push_back(std::move(*person));
        }
    }
    result.sides = side_pairs(people);
    if (options.norms == nullptr) {
        return result;
    }
    for (const MeasuredPerson& person : people) {
        const JudgedPerson& judged = result.judged.emplace_back(judge_person(*options.norms, person, options.judging));
        for (const ExtentJudgement& extent : judged.extents) {
            for (const Finding& finding : extent.findings) {
                if (std::ranges::find(result.findings, finding) == result.findings.end()) {
                    result.findings.push_back(finding);
                }
            }
        }
    }
    return result;
}

ResultTable verdict_count_table(std::span<const JudgedPerson> judged) {
    std::map<std::pair<std::string, std::string>, std::array<std::size_t, 4>> counts;  // by joint and direction
    for (const JudgedPerson& person : judged) {
        for (const ExtentJudgement& extent : person.extents) {
            if (const auto verdict = extent.verdict()) {
                const JointMotion& motion = *person.person.motion;
                ++counts[{motion.joint, name_of(extent.measured.part, motion)}][static_cast<std::size_t>(*verdict)];
            }
        }
    }
    ResultTable table("norms", {"joint", "direction", "below", "inside", "above", "undecided"});
    const auto count = [](const std::array<std::size_t, 4>& by_verdict, LimitVerdict verdict) {
        return count_cell(by_verdict[static_cast<std::size_t>(verdict)]);
    };
    for (const auto& [what, by_verdict] : counts) {
        table.add_row({what.first, what.second, count(by_verdict, LimitVerdict::below),
                       count(by_verdict, LimitVerdict::within), count(by_verdict, LimitVerdict::above),
                       count(by_verdict, LimitVerdict::cannot_tell)});
    }
    return table;
}

}  // namespace jointrom
