#pragma once

/// \file
/// A graded answer sheet as tables of the column catalogue.

#include <jointrom/batch/answer_sheet.hpp>
#include <jointrom/report/result_table.hpp>

namespace jointrom {

/// A row for each answer, with feedback for the student.
[[nodiscard]] ResultTable answer_table(const GradedSheet& sheet);

/// A row for each participant.
[[nodiscard]] ResultTable participant_grade_table(const GradedSheet& sheet);

/// A row for each quantity: how the class did.
[[nodiscard]] ResultTable quantity_grade_table(const GradedSheet& sheet);

}  // namespace jointrom
