#pragma once

/// \file
/// Which rows of a table apply to one person's joint, or the reason that none does. Nothing is ever taken instead of
/// what was asked for: a row for another sex, age or mode is not a match.

#include <jointrom/core/finding.hpp>
#include <jointrom/norms/norm_table.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

struct NormQuery {
    const JointMotion* motion = nullptr;
    MotionPart part = MotionPart::positive;
    std::optional<Sex> sex = {};           ///< unset: not known, so only rows for both sexes match
    std::optional<double> age_years = {};  ///< unset: not known, so only rows for any age match
    std::optional<MotionMode> mode = {};   ///< unset: not known, so only rows that state none match
    std::string source = {};               ///< key of a source; empty = any
};

enum class NormCriterion { joint, motion, source, sex, age, mode };

[[nodiscard]] std::string_view name_of(NormCriterion criterion);

/// A row that applies, and where it is less particular than the question.
struct NormMatch {
    const NormRow* row;          ///< lives as long as the table
    bool sex_pooled = false;     ///< the question names a sex, the row holds both together
    bool age_unstated = false;   ///< the question names an age, the source gives none
    bool mode_unstated = false;  ///< the question names a mode, the source gives none

    /// These as words, and whether a number is from memory; empty when there is nothing to say.
    [[nodiscard]] std::string remarks() const;
};

/// A row that would apply if it were not for `unmet`.
struct NearNorm {
    const NormRow* row;
    std::vector<NormCriterion> unmet;  ///< sex, age, mode or source
};

struct NormLookup {
    std::vector<NormMatch> matches;      ///< in the order of the table
    std::vector<NearNorm> near;          ///< when nothing matches: the rows that miss the fewest criteria
    std::vector<NormCriterion> missing;  ///< when nothing matches: what the table lacks; joint or motion stand alone
    /// When nothing matches: what was asked for and is not there, and what would match, in sentences.
    std::string reason;
};

/// The rows for a joint, direction, sex, age and mode.
///
/// Method: a row matches when joint, motion and part are the same, and sex, age and mode are the same or the row has
/// none. An age limit that is a whole number counts completed years (20-44 holds 44.9).
/// \param query \pre motion is set
/// \throws Failure usage "source-unknown" for a source that has no rows; "age-implausible" outside 0 to 120 years
[[nodiscard]] NormLookup find_norms(const NormTable& table, const NormQuery& query);

/// Whether the age limits of the row hold the age; true for a row without limits.
[[nodiscard]] bool holds_age(const NormRow& row, double age_years);

/// What a listing is narrowed to. Unlike in NormQuery, what is unset lets every row through.
struct NormFilter {
    std::string joint = {};   ///< as a user writes it
    std::string motion = {};  ///< a direction, or the name of a motion for both its directions and its arc
    std::optional<Sex> sex = {};
    std::optional<double> age_years = {};
    std::optional<MotionMode> mode = {};
    std::string source = {};
};

/// The directions and motions that a filter names; the arc stands for a motion with all its parts.
/// \throws Failure as filtered_norms()
[[nodiscard]] std::vector<NamedPart> filtered_parts(const NormTable& table, const NormFilter& filter);

/// The rows that pass, in the order of the table; a row that does not state its sex, age or mode passes that filter.
/// \throws Failure usage as joint_motion() and find_norms() for names that are not known; "motion-unknown" for a motion
///   without a joint that no joint has
[[nodiscard]] std::vector<const NormRow*> filtered_norms(const NormTable& table, const NormFilter& filter);

/// "norm-from-memory" when rows that are used or shown rest on numbers that were not read anywhere; else nothing.
[[nodiscard]] Findings memory_findings(std::span<const NormRow* const> rows);

}  // namespace jointrom
