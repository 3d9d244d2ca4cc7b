#pragma once

/// \file
/// Judgements of people as tables of the column catalogue, and as sentences.

#include <jointrom/norms/functional_arcs.hpp>
#include <jointrom/norms/measured_person.hpp>
#include <jointrom/report/result_table.hpp>

#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// A row for each direction and each row of the norm table that applies, the one that counts first.
[[nodiscard]] ResultTable judgement_table(const JudgedPerson& judged);

/// A row for each person and direction, with the norm row that counts.
[[nodiscard]] ResultTable class_judgement_table(std::span<const JudgedPerson> people);

/// Every norm row that counted in a judgement, once.
[[nodiscard]] ResultTable norm_used_table(std::span<const JudgedPerson> people);

/// A row for each comparison of left and right.
[[nodiscard]] ResultTable side_table(std::span<const SidePair> pairs);

/// The daily tasks of each person's joint and whether the measured range covers them, with the person's label where
/// `is_class`. Who lacks an end of the range has no rows.
///
/// Method: "yes" when the task lies inside the range drawn in by the expanded uncertainty of each end, "no" when it
/// does not even lie inside the range drawn out by it, else "cannot tell".
[[nodiscard]] ResultTable task_table(std::span<const MeasuredPerson> people, bool is_class);

/// The verdict on an extent in a sentence with its numbers.
[[nodiscard]] std::string verdict_sentence(const ExtentJudgement& judged);

/// What a side comparison says, in a sentence with its numbers.
[[nodiscard]] std::string side_sentence(const SidePair& pair);

}  // namespace jointrom
