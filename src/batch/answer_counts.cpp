#include <jointrom/batch/answer_sheet.hpp>

#include <algorithm>
#include <array>

namespace jointrom {
namespace {

/// Whether the quantity itself was read, well or badly, and nothing was mixed up.
bool is_error_of_reading(const GradedAnswer& answer) {
    return answer.mistake == Mistake::none || answer.mistake == Mistake::rounded || answer.mistake == Mistake::near;
}

template <typename Name>
std::vector<GradeCount> grades_by(const GradedSheet& sheet, const Name& name_of_answer) {
    struct Group {
        GradeCount count;
        double error_sum = 0.0;
        std::size_t errors = 0;
        std::map<Mistake, std::size_t> mistakes;
    };
    std::map<std::string, Group> groups;
    for (const GradedAnswer& answer : sheet.answers) {
        Group& group = groups[name_of_answer(answer)];
        ++group.count.answers;
        if (answer.verdict == Verdict::not_graded) {
            ++group.count.not_graded;
            continue;
        }
        group.count.right += answer.verdict == Verdict::right ? 1U : 0U;
        if (is_error_of_reading(answer)) {
            group.error_sum += answer.value - answer.computed;
            ++group.errors;
        }
        if (answer.mistake != Mistake::none && answer.mistake != Mistake::unexplained) {
            ++group.mistakes[answer.mistake];
        }
    }
    std::vector<GradeCount> counts;
    for (auto& [name, group] : groups) {
        group.count.name = name;
        if (group.errors > 0) {
            group.count.mean_error = group.error_sum / static_cast<double>(group.errors);
        }
        const auto commonest = std::ranges::max_element(group.mistakes, {}, [](const auto& m) { return m.second; });
        group.count.commonest = commonest == group.mistakes.end() ? Mistake::none : commonest->first;
        counts.push_back(std::move(group.count));
    }
    return counts;
}

}  // namespace

std::string_view name_of(Verdict verdict) {
    switch (verdict) {
    case Verdict::right:
        return "right";
    case Verdict::wrong:
        return "wrong";
    case Verdict::not_graded:
        break;
    }
    return "not graded";
}

std::string_view name_of(Mistake mistake) {
    constexpr auto names = std::to_array<std::string_view>(
        {"", "sign flipped", "180 deg less the angle", "radians", "left and right exchanged", "another quantity",
         "another trial", "decimal point or unit", "half", "twice", "rounded", "nearly right", "unexplained"});
    return names.at(static_cast<std::size_t>(mistake));
}

double GradeCount::right_pct() const {
    const std::size_t graded = answers - not_graded;
    return graded == 0 ? std::numeric_limits<double>::quiet_NaN()
                       : 100.0 * static_cast<double>(right) / static_cast<double>(graded);
}

std::vector<GradeCount> grades_by_participant(const GradedSheet& sheet) {
    return grades_by(sheet, [](const GradedAnswer& answer) { return answer.answer.participant; });
}

std::vector<GradeCount> grades_by_quantity(const GradedSheet& sheet) {
    return grades_by(sheet, [](const GradedAnswer& answer) {
        return answer.column.empty() ? answer.answer.quantity : answer.column;
    });
}

}  // namespace jointrom
