#include "answer_mistakes.hpp"
#include "answer_quantity.hpp"

#include <jointrom/batch/answer_sheet.hpp>
#include <jointrom/core/failure.hpp>
#include <jointrom/core/near_miss.hpp>
#include <jointrom/core/number_text.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <tuple>
#include <utility>

namespace jointrom {
namespace {

using Trials = std::vector<const ComputedTrial*>;

/// Why an answer cannot be graded, for the instructor.
struct NotGraded {
    std::string reason;
};

std::string near_miss(std::string_view typed, const std::vector<std::string>& known) {
    const std::vector<std::string_view> views(known.begin(), known.end());
    const auto meant = nearest(typed, views);
    return meant ? fmt::format("; did you mean '{}'?", *meant) : std::string();
}

bool same_name(std::string_view a, std::string_view b) {
    return plain_words(a) == plain_words(b);
}

/// "l" and "left" are one side.
bool same_side(std::string_view a, std::string_view b) {
    const std::string left = plain_words(a);
    const std::string right = plain_words(b);
    return left == right || (!left.empty() && !right.empty() && (left.size() == 1 || right.size() == 1) &&
                             left.front() == right.front());
}

/// "P03, left, trial 2"
std::string in_words(const Answer& answer) {
    std::string text = answer.participant;
    for (const std::string& part : {answer.side, answer.joint, answer.motion}) {
        text += part.empty() ? "" : ", " + part;
    }
    return text + (answer.trial.empty() ? "" : ", trial " + answer.trial);
}

class Grader {
  public:
    Grader(const std::vector<ComputedTrial>& computed, const GradeOptions& options)
        : computed_(computed), options_(options) {}

    [[nodiscard]] GradedAnswer grade(const Answer& answer) const {
        GradedAnswer graded{.answer = answer, .column = {}, .unit = {}, .feedback = {}};
        try {
            judge(graded);
        } catch (const NotGraded& problem) {
            graded.verdict = Verdict::not_graded;
            graded.feedback = problem.reason;
        }
        return graded;
    }

  private:
    void judge(GradedAnswer& graded) const {
        const Answer& answer = graded.answer;
        const Trials of_participant = trials_of(answer);
        const QuantityName quantity = named(answer, *of_participant.front());
        graded.column = quantity.column;
        graded.unit = unit_of_column(quantity.column);
        if (answer.text.empty()) {
            throw NotGraded{"no value was given"};
        }
        const auto number = number_on_sheet(answer.text, answer.unit, graded.unit);
        if (!number) {
            const std::string unit = answer.unit.empty() ? "" : fmt::format(" in '{}'", answer.unit);
            throw NotGraded{fmt::format("'{}'{} is no number in {}", answer.text, unit,
                                        graded.unit.empty() ? "counts" : graded.unit)};
        }
        graded.value = number->value;
        const Trials matching = matching_trials(answer, of_participant, quantity.column);
        set_computed(graded, matching, quantity);
        graded.allowed = allowed(graded, number->half_last_digit);
        const double error = std::abs(graded.value - graded.computed);
        if (error <= graded.allowed) {
            graded.verdict = Verdict::right;
            graded.feedback = "Right.";
            return;
        }
        graded.verdict = Verdict::wrong;
        auto [mistake, feedback] =
            diagnosis(wrong_reading(graded, number->half_last_digit, matching, of_participant, quantity));
        graded.mistake = mistake;
        graded.feedback = std::move(feedback);
    }

    [[nodiscard]] Trials trials_of(const Answer& answer) const {
        Trials trials;
        std::vector<std::string> names;
        for (const ComputedTrial& row : computed_) {
            if (same_name(row.participant, answer.participant)) {
                trials.push_back(&row);
            }
            names.push_back(row.participant);
        }
        if (trials.empty()) {
            throw NotGraded{answer.participant.empty()
                                ? "no participant was given"
                                : fmt::format("no participant is called '{}'{}", answer.participant,
                                              near_miss(answer.participant, names))};
        }
        return trials;
    }

    [[nodiscard]] static QuantityName named(const Answer& answer, const ComputedTrial& trial) {
        QuantityName quantity = quantity_named(answer.quantity, trial);
        if (quantity.column.empty()) {
            throw NotGraded{answer.quantity.empty() ? "no quantity was given"
                                                    : fmt::format("no quantity is called '{}'{}", answer.quantity,
                                                                  near_miss(answer.quantity, known_quantities(trial)))};
        }
        return quantity;
    }

    [[nodiscard]] static Trials matching_trials(const Answer& answer, const Trials& trials, const std::string& column) {
        Trials matching;
        std::set<std::tuple<std::string, std::string, std::string>> kinds;
        for (const ComputedTrial* row : trials) {
            const auto agrees = [](const std::string& asked, const std::string& found) {
                return asked.empty() || same_name(asked, found);
            };
            const bool fits = (answer.side.empty() || same_side(answer.side, row->side)) &&
                              agrees(answer.joint, row->joint) && agrees(answer.motion, row->motion) &&
                              agrees(answer.trial, row->trial);
            if (fits && row->values.contains(column)) {
                matching.push_back(row);
                kinds.emplace(row->side, row->joint, row->motion);
            }
        }
        if (matching.empty()) {
            throw NotGraded{fmt::format("no {} was computed for {}", column, in_words(answer))};
        }
        if (kinds.size() > 1) {
            std::string list;
            for (const auto& [side, joint, motion] : kinds) {
                list += fmt::format("{}{} {}", list.empty() ? "" : ", ", side, joint);
            }
            throw NotGraded{
                fmt::format("recordings of {} kinds fit {} ({}); say which in a column side, joint or motion",
                            kinds.size(), answer.participant, list)};
        }
        return matching;
    }

    static void set_computed(GradedAnswer& graded, const Trials& matching, const QuantityName& quantity) {
        std::vector<double> values;
        double u95_squares = 0.0;
        for (const ComputedTrial* row : matching) {
            values.push_back(quantity.scale * row->values.at(quantity.column));
            const auto u95 = row->values.find(expanded_column(quantity.column));
            u95_squares += u95 == row->values.end() ? std::nan("") : u95->second * u95->second;
        }
        const Description described = describe(values);
        const auto count = static_cast<double>(values.size());
        const double spread = values.size() > 1 ? described.sd : 0.0;
        graded.trials = values.size();
        graded.computed = described.mean;
        graded.u95 = std::hypot(std::sqrt(u95_squares / count), spread);
    }

    [[nodiscard]] double allowed(const GradedAnswer& graded, double half_last_digit) const {
        if (graded.unit.empty()) {
            return graded.trials > 1 ? 0.5 : 0.0;
        }
        const double stated =
            std::isnan(graded.u95) ? options_.tolerance_pct / 100.0 * std::abs(graded.computed) : graded.u95;
        const double reading = graded.unit == "deg" ? options_.tolerance_deg : 0.0;
        return stated + reading + half_last_digit;
    }

    /// Values of other sides, quantities and trials, but none that could just as well be the right one.
    [[nodiscard]] static WrongReading wrong_reading(const GradedAnswer& graded, double half_last_digit,
                                                    const Trials& matching, const Trials& of_participant,
                                                    const QuantityName& quantity) {
        WrongReading reading{.value = graded.value,
                             .computed = graded.computed,
                             .allowed = graded.allowed,
                             .half_last_digit = half_last_digit,
                             .unit = graded.unit,
                             .other_sides = {},
                             .other_quantities = {},
                             .other_trials = {}};
        const ComputedTrial& asked = *matching.front();
        for (const ComputedTrial* row : of_participant) {
            const auto value = row->values.find(quantity.column);
            if (value == row->values.end() || row->joint != asked.joint || row->motion != asked.motion) {
                continue;
            }
            if (row->side != asked.side) {
                reading.other_sides.push_back({fmt::format("the {} side", row->side), quantity.scale * value->second});
            } else if (std::ranges::find(matching, row) == matching.end()) {
                reading.other_trials.push_back({fmt::format("trial {}", row->trial), quantity.scale * value->second});
            }
        }
        constexpr auto others = std::to_array<std::pair<std::string_view, std::string_view>>(
            {{"positive_deg", "extreme in the positive direction"},
             {"negative_deg", "extreme in the negative direction"},
             {"arc_deg", "arc, from one extreme to the other"},
             {"mean_arc_deg", "mean arc of the repetitions"}});
        for (const auto& [column, words] : others) {
            const auto value = asked.values.find(column);
            if (graded.unit == "deg" && column != quantity.column && value != asked.values.end()) {
                reading.other_quantities.push_back({std::string(words), value->second});
            }
        }
        return reading;
    }

    const std::vector<ComputedTrial>& computed_;
    GradeOptions options_;
};

}  // namespace

GradedSheet grade_answers(const std::vector<Answer>& answers, const std::vector<ComputedTrial>& computed,
                          const GradeOptions& options) {
    if (!(options.tolerance_deg >= 0.0 && options.tolerance_pct >= 0.0)) {
        throw Failure(FailureKind::usage, "tolerance-negative", "a tolerance is negative", "Give 0 or more.");
    }
    const Grader grader(computed, options);
    GradedSheet sheet;
    std::set<std::vector<std::string>> seen;
    for (const Answer& answer : answers) {
        GradedAnswer graded = grader.grade(answer);
        const std::string quantity = graded.column.empty() ? plain_words(answer.quantity) : graded.column;
        const bool is_new =
            seen.insert({plain_words(answer.participant), quantity, plain_words(answer.side), plain_words(answer.joint),
                         plain_words(answer.motion), plain_words(answer.trial)})
                .second;
        if (!is_new) {
            graded.verdict = Verdict::not_graded;
            graded.mistake = Mistake::none;
            graded.feedback = "answered twice; the first answer counts";
            sheet.findings.emplace_back(
                "answer-twice", fmt::format("{} answers {} twice", answer.participant, answer.quantity), answer.place);
        } else if (graded.verdict == Verdict::not_graded) {
            sheet.findings.emplace_back("answer-not-graded", graded.feedback, answer.place);
        }
        sheet.answers.push_back(std::move(graded));
    }
    return sheet;
}

}  // namespace jointrom
