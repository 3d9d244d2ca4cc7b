#pragma once

/// \file
/// Readings that students made, against the computed ones: right or not, and what probably went wrong.

#include <jointrom/core/finding.hpp>
#include <jointrom/table/record_reader.hpp>

#include <cstddef>
#include <limits>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// One reading as it stands on the answer sheet.
struct Answer {
    std::string participant;
    std::string side, joint, motion, trial;  ///< may be empty: then whichever there is
    std::string quantity;                    ///< a column of the results, or its name in words: "arc_deg", "flexion"
    std::string text;                        ///< as written: "133", "2.31 rad"
    std::string unit;                        ///< empty: that of the results
    Place place;                             ///< of the value
};

/// The answers in a table with the columns participant, quantity and value, and optionally side, joint, motion, trial
/// and unit. \throws Failure as RecordReader; unreadable_data "answers-empty" when there is no row
[[nodiscard]] std::vector<Answer> read_answers(RecordReader& table);

/// One row of computed results.
struct ComputedTrial {
    std::string participant, side, trial, joint, motion, positive_direction, negative_direction;
    std::map<std::string, double, std::less<>> values;  ///< by column; only cells that hold a number
};

/// The results in a table such as trials.csv; rows whose status is not "done" are left out.
///
/// Any column of numbers whose name ends in a unit (_deg, _deg_s, _s, ...), or is "repetitions", is a quantity;
/// NAME_u95_UNIT is its expanded uncertainty. \throws Failure as RecordReader; unreadable_data "results-empty" when no
/// row is left
[[nodiscard]] std::vector<ComputedTrial> read_computed(RecordReader& table);

enum class Verdict { right, wrong, not_graded };

/// What probably happened to a reading that is wrong, the likeliest first.
enum class Mistake {
    none,
    sign,            ///< the right size with the wrong sign
    supplement,      ///< 180 deg less the angle: the inner angle between the segments
    radians,         ///< given in radians
    other_side,      ///< the value of the other limb
    other_quantity,  ///< the value of another quantity of the same trial
    other_trial,     ///< the value of another trial
    decimal_point,   ///< ten, a hundred or a thousand times too large or too small
    half,            ///< half of the angle
    twice,           ///< twice the angle
    rounded,         ///< rounded to 5 or 10
    near,            ///< off by no more than twice what is allowed
    unexplained
};

[[nodiscard]] std::string_view name_of(Verdict verdict);
/// Empty for none.
[[nodiscard]] std::string_view name_of(Mistake mistake);

struct GradeOptions {
    double tolerance_deg = 0.0;  ///< error of reading allowed beside the uncertainty, for angles
    double tolerance_pct = 5.0;  ///< allowed for quantities whose results state no uncertainty; design choice
};

struct GradedAnswer {
    Answer answer;
    std::string column;  ///< the quantity as a column of the results; empty when it is not known
    std::string unit;    ///< of the numbers below
    double value = std::numeric_limits<double>::quiet_NaN();  ///< the reading as a number in that unit
    double computed =
        std::numeric_limits<double>::quiet_NaN();           ///< what was computed; a mean over trials when several fit
    double u95 = std::numeric_limits<double>::quiet_NaN();  ///< its expanded uncertainty; missing: not stated
    double allowed = std::numeric_limits<double>::quiet_NaN();  ///< largest error that counts as right
    std::size_t trials = 0;                                     ///< that `computed` is made from
    Verdict verdict = Verdict::not_graded;
    Mistake mistake = Mistake::none;
    std::string feedback;  ///< a sentence for the student
};

struct GradedSheet {
    std::vector<GradedAnswer> answers;  ///< in the order of the sheet
    Findings findings;                  ///< answer-not-graded, answer-twice, each with its place
};

/// The answers judged.
///
/// Method: an answer is right when it is within U95 + tolerance + half a unit of its last digit of the computed value;
/// without a stated uncertainty tolerance_pct of the value takes the place of U95, a count must be met exactly. Where
/// an answer names no trial and several fit, their mean is taken, its U95 widened by their SD. A direction by name
/// counts in that direction: 5 deg of extension is -5 on the scale of flexion. A mistake is named when the reading,
/// treated accordingly, comes right; of several the first in the order of Mistake. Answers that cannot be graded (an
/// unknown participant or quantity, no value or no number, two sides that fit) get a finding with the nearest known
/// name; of repeated ones the first counts. \throws Failure usage "tolerance-negative"
[[nodiscard]] GradedSheet grade_answers(const std::vector<Answer>& answers, const std::vector<ComputedTrial>& computed,
                                        const GradeOptions& options = {});

/// How a group of answers did.
struct GradeCount {
    std::string name;  ///< participant or quantity
    std::size_t answers = 0;
    std::size_t right = 0;
    std::size_t not_graded = 0;
    Mistake commonest = Mistake::none;                             ///< the most frequent mistake that is explained
    double mean_error = std::numeric_limits<double>::quiet_NaN();  ///< reading less computed, of those right, rounded
                                                                   ///< or nearly right

    /// Of those graded; missing when none was.
    [[nodiscard]] double right_pct() const;
};

/// A count for each participant, sorted by name.
[[nodiscard]] std::vector<GradeCount> grades_by_participant(const GradedSheet& sheet);
/// A count for each quantity, sorted by name.
[[nodiscard]] std::vector<GradeCount> grades_by_quantity(const GradedSheet& sheet);

}  // namespace jointrom
