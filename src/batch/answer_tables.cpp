#include <jointrom/batch/answer_tables.hpp>

#include "answer_quantity.hpp"

namespace jointrom {

ResultTable answer_table(const GradedSheet& sheet) {
    ResultTable table("answers", {"participant", "side", "trial_name", "quantity", "answer", "computed", "allowed",
                                  "figure_unit", "verdict", "mistake", "feedback"});
    for (const GradedAnswer& graded : sheet.answers) {
        const Answer& answer = graded.answer;
        table.add_row({answer.participant, answer.side, answer.trial, answer.quantity, answer.text, graded.computed,
                       graded.allowed, graded.unit, std::string(name_of(graded.verdict)),
                       std::string(name_of(graded.mistake)), graded.feedback});
    }
    return table;
}

ResultTable participant_grade_table(const GradedSheet& sheet) {
    ResultTable table("participants", {"participant", "count", "right", "not_graded", "right_pct", "mistake"});
    for (const GradeCount& count : grades_by_participant(sheet)) {
        table.add_row({count.name, count_cell(count.answers), count_cell(count.right), count_cell(count.not_graded),
                       count.right_pct(), std::string(name_of(count.commonest))});
    }
    return table;
}

ResultTable quantity_grade_table(const GradedSheet& sheet) {
    ResultTable table("quantities", {"quantity", "count", "right", "not_graded", "right_pct", "mean_error",
                                     "figure_unit", "mistake"});
    for (const GradeCount& count : grades_by_quantity(sheet)) {
        table.add_row({count.name, count_cell(count.answers), count_cell(count.right), count_cell(count.not_graded),
                       count.right_pct(), count.mean_error, unit_of_column(count.name),
                       std::string(name_of(count.commonest))});
    }
    return table;
}

}  // namespace jointrom
