#pragma once

/// \file
/// A class against reference values, and its own results as a table of reference values.

#include <jointrom/batch/long_table.hpp>
#include <jointrom/core/finding.hpp>
#include <jointrom/norms/norm_lookup.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

struct NormComparisonOptions {
    std::vector<std::string> by = {};  ///< columns to group by; joint and motion come on top
    std::string participant = {};      ///< column that says whose a value is
    std::optional<MotionMode> mode = {};
    bool condition_tells_mode = false;     ///< a condition with the word active or passive goes before `mode`
    std::optional<Sex> sex = {};           ///< of participants of whom the table does not say it
    std::optional<double> age_years = {};  ///< the same
    std::string source = {};               ///< key of a source; empty = all
};

/// One quantity of one group against one source.
struct NormComparison {
    std::vector<std::string> group;
    std::string direction;  ///< "flexion", or the motion's name for the arc
    std::string quantity;
    std::string source;
    std::size_t participants = 0;  ///< for whom the source has a normal range
    std::size_t below = 0;
    std::size_t inside = 0;
    std::size_t above = 0;
    std::size_t undecided = 0;  ///< too near a limit for their uncertainty
    double mean;                ///< of the participants' extents, degrees
    double norm_mean;           ///< of the values of the rows that apply to them, degrees
    double mean_z;              ///< of the extents in standard deviations of these rows; missing without SD
};

struct NormComparisons {
    std::vector<std::string> by;  ///< columns of the groups
    std::vector<NormComparison> rows;
    Findings findings;
};

/// Each participant's mean extent against the normal range for the joint, direction, sex and age.
///
/// Method: positive_deg, negative_deg and arc_deg are taken as extents (of the negative direction with the sign
/// turned); other quantities are left out. Conformity with a guard band: the participant's mean expanded uncertainty.
/// \param expanded columns of expanded uncertainties (95 %), named QUANTITY_u95_deg; those that are not there count as
/// 0 \pre `table` holds texts joint and motion, and sex and age_years where the input has them \throws Failure usage
/// "joint-unknown", "motion-unknown", "sex-unknown", "age-implausible"
[[nodiscard]] NormComparisons compare_with_norms(const LongTable& table, std::span<const NumberColumn> expanded,
                                                 const NormTable& norms, const NormComparisonOptions& options);

/// The class as a table that `--norms` reads (docs/formats/norm-table.md): a row for each group, direction and sex,
/// with mean, SD, extremes and (from 20 participants on) percentiles of the participants' means. \param source_key name
/// of the class in the column `source` \throws Failure as compare_with_norms(); usage "norm-table-empty" when no group
/// has two participants
[[nodiscard]] std::string class_norm_table(const LongTable& table, const NormComparisonOptions& options,
                                           const std::string& source_key);

}  // namespace jointrom
