#pragma once

/// \file
/// What is alike in the figures of a class: words for quantities and groups, participants' means. Private.

#include "batch/row_groups.hpp"

#include <jointrom/angle/joint_motion.hpp>
#include <jointrom/batch/long_table.hpp>
#include <jointrom/figure/class_figure.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// A quantity in words, with its unit.
struct MeasuredQuantity {
    std::string name;
    std::string unit;

    [[nodiscard]] std::string text() const { return name + " (" + unit + ")"; }
};

/// Which extent a column holds; nothing for other columns.
[[nodiscard]] std::optional<MotionPart> extent_in_column(const std::string& column);

/// \param motion whose extent the column holds; unset for other columns
[[nodiscard]] MeasuredQuantity quantity_of(const std::string& column, const JointMotion* motion = nullptr,
                                           MotionPart part = MotionPart::arc);

[[nodiscard]] std::string capitalised(std::string text);

/// A name for each group, of those of its texts that are not the same in all.
[[nodiscard]] std::vector<std::string> telling_names(const std::vector<std::vector<std::string>>& groups);

[[nodiscard]] RowGroups groups_by(const LongTable& table, const std::vector<std::string>& by);

/// Each participant's mean of the table's first number column, in the order of their names; each value where nothing
/// says whose it is. Missing values: left out.
[[nodiscard]] std::vector<NamedValue> participant_means(const LongTable& table, std::span<const std::uint32_t> rows,
                                                        const std::string& participant);

}  // namespace jointrom
