#pragma once

/// \file
/// What each column of a table holds.

#include <jointrom/table/table_reader.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace jointrom {

enum class ColumnRole {
    time,
    counter,  ///< counts rows, samples or packets
    angle,
    emg,
    other,
    text
};

/// The role of a column as far as its heading and unit tell; `other` where they do not, and for times and counters.
[[nodiscard]] ColumnRole role_by_name(const std::string& heading, const std::string& unit);

/// What the user has said about columns, as indices into table.columns.
struct StatedRoles {
    std::optional<std::size_t> time;
    std::optional<std::size_t> angle;
    std::vector<std::size_t> emg;
};

struct ColumnRoles {
    std::vector<ColumnRole> of;  ///< one a column of the table
    /// The time column that goes with each column: the next one to its left, the only one, or none.
    std::vector<std::optional<std::size_t>> time_of;
    std::optional<std::size_t> angle;  ///< the column taken as the joint angle
    std::string angle_reason;          ///< why it was taken, when that was not plain from its name and unit; else empty
};

/// The role of every column, as stated or found out by its unit, by the words of its heading, then by its content.
///
/// Method: a time column rises; its unit is one of time, its heading names time, or its steps are nearly equal. Units
/// of angle make an angle; so do the words for one (in several languages), except beside words for a velocity or a
/// load. "Angle" wins over the name of a muscle, that over a direction of motion, that over the name of a joint.
/// Without any of these, a channel that changes slowly and is not a counter or a marker is an angle. Of several
/// angles, the one with most of unit, word and joint is taken; of equal ones the one whose heading shares the joint or
/// side with the file name, then the one that moved furthest.
/// Missing samples: skipped.
/// \param source the file name
[[nodiscard]] ColumnRoles column_roles(const Table& table, const StatedRoles& stated, const std::string& source);

}  // namespace jointrom
