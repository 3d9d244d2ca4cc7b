#pragma once

/// \file
/// What the figures of a class show, taken from its table.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/batch/norm_comparison.hpp>
#include <jointrom/batch/repeated_scores.hpp>
#include <jointrom/figure/agreement_figure.hpp>
#include <jointrom/figure/class_figure.hpp>
#include <jointrom/figure/sides_figure.hpp>

#include <span>
#include <string>
#include <utility>

namespace jointrom {

/// "COLUMN=TEXT": only rows with that text.
struct RowFilter {
    std::string column;
    std::string text;
};

/// The rows that pass all filters.
/// \pre `table` holds the columns as texts
/// \throws Failure usage "no-such-level" for a text that does not occur, naming those that do; "no-rows-left"
[[nodiscard]] LongTable filtered_rows(const LongTable& table, std::span<const RowFilter> filters);

/// The first number column of a class by group: each participant's mean, the groups' means and, where the quantity is
/// an extent of a known joint, the normal ranges of the participants.
///
/// Method: ranges come from one source, that with ranges for the most participants, of several the first of the
/// table; options.source picks another. They are left out of a group in which more than four rows apply.
/// \pre `table` holds a number, and texts as compare_with_norms()
/// \throws Failure as compare_with_norms()
[[nodiscard]] ClassDots class_dots(const LongTable& table, const NormTable& norms,
                                   const NormComparisonOptions& options);

/// Left and right of each participant, by the mean of the own values, apart for each text in the columns `by`.
/// \param side column that says left or right
/// \throws Failure usage "joints-mixed" when there are several joints or motions
[[nodiscard]] SidePairs side_pairs(const LongTable& table, const NormComparisonOptions& options,
                                   const std::string& side);

/// The first two repeats of one group.
/// \param options that the scores were taken with
/// \pre there are two repeats
[[nodiscard]] ScorePairs score_pairs(const RepeatedScores& scores, const RepeatedOptions& options);

}  // namespace jointrom
