#pragma once

/// \file
/// The columns that a user names. Private.

#include <jointrom/recording/column_role.hpp>
#include <jointrom/recording/read_recording.hpp>

namespace jointrom {

/// Where the columns stand that the options name.
/// \throws Failure as find_column(); usage "column-text", "emg-twice"; unreadable_data "column-empty"
[[nodiscard]] StatedRoles stated_roles(const Table& table, const ReadingOptions& options);

}  // namespace jointrom
