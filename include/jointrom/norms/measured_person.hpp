#pragma once

/// \file
/// Who was measured and how far the joint went: what a check of a person starts from, and what a class table holds.

#include <jointrom/norms/judgement.hpp>
#include <jointrom/norms/side_comparison.hpp>
#include <jointrom/table/byte_source.hpp>

#include <cstddef>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

struct MeasuredPerson {
    std::string label = {};        ///< of the recording or row: a file, an id
    std::string participant = {};  ///< empty when not stated
    const JointMotion* motion = nullptr;
    Side side = Side::unknown;
    std::string condition = {};
    std::optional<Sex> sex = {};
    std::optional<double> age_years = {};
    std::optional<MotionMode> mode = {};
    std::vector<MeasuredExtent> extents = {};
};

/// Who moved the joint, as the words of a condition such as "passive, loaded" say it; nothing when they do not.
[[nodiscard]] std::optional<MotionMode> find_mode_in(std::string_view condition);

/// What a table of results may leave out.
struct PersonDefaults {
    std::optional<Sex> sex = {};
    std::optional<double> age_years = {};
    std::optional<MotionMode> mode = {};
    bool assume_usual_error = true;  ///< where the table has no uncertainty and the joint's usual error is known
};

struct MeasuredPeople {
    std::vector<MeasuredPerson> people;
    std::size_t rows = 0;
    Findings findings;  ///< results-row-skipped
};

/// The rows of a results table that were measured.
///
/// Columns, in any order: joint and motion, and at least one of positive_deg, negative_deg (angles on the joint's axis,
/// so below 0 beyond neutral in the negative direction) and arc_deg, each with ..._u_deg and ..._u95_deg; id, file,
/// participant, side, condition, age_years, sex, status. A condition with the word active or passive says the mode. A
/// row whose status is not "done" is skipped.
/// \throws Failure unreadable_data with the place: "results-column-missing", "results-cell" (a joint, motion, side, sex
///   or age that cannot be), "results-empty"; what RecordReader throws
[[nodiscard]] MeasuredPeople read_measured_people(const std::filesystem::path& path,
                                                  const PersonDefaults& defaults = {});
[[nodiscard]] MeasuredPeople read_measured_people(ByteSource& source, const std::string& name,
                                                  const PersonDefaults& defaults = {});

/// A budget that holds a stated standard uncertainty; `expanded_u95_deg` (NaN: not stated) gives its degrees of
/// freedom. Empty for a missing or zero uncertainty.
[[nodiscard]] Budget stated_budget(double u_deg, double expanded_u95_deg);

/// \throws Failure usage "value-implausible" for an extent that the joint cannot reach, saying what it can; with the
///   angle that it would be if it were radians, where that is possible
void check_plausible(const JointMotion& motion, const MeasuredExtent& measured);

/// Whether the file is such a table by its headings: joint, motion and an extent. Never fails.
[[nodiscard]] bool holds_measured_people(const std::filesystem::path& path);

/// A person with what was found of each extent.
struct JudgedPerson {
    MeasuredPerson person;
    std::vector<ExtentJudgement> extents = {};

    [[nodiscard]] bool is_outside() const;     ///< an extent lies below or above its normal range
    [[nodiscard]] bool has_judgement() const;  ///< a norm applies to an extent, even one without spread
};

/// judge_extent() for each extent of a person; an arc only where the table has arcs of the motion.
[[nodiscard]] JudgedPerson judge_person(const NormTable& table, const MeasuredPerson& person,
                                        const JudgingOptions& options = {});

/// Left against right of one participant.
struct SidePair {
    std::string participant = {};
    const JointMotion* motion = nullptr;
    MotionPart part = MotionPart::positive;
    std::string condition = {};
    std::size_t left_trials = 0;
    std::size_t right_trials = 0;
    SideComparison comparison = {};
};

/// Every joint motion and condition of every participant with both sides, in the order of the first row.
///
/// Method: several trials of a side count with their mean, and with the uncertainty of the least certain one, because
/// what trials of a sensor share does not average out.
/// \param common what all rows were measured with: one calibration, or (this_value) nothing that is known
[[nodiscard]] std::vector<SidePair> side_pairs(std::span<const MeasuredPerson> people,
                                               CommonTo common = CommonTo::this_value);

}  // namespace jointrom
