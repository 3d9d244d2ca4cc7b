#pragma once

/// \file
/// Which columns of a class table mean what. Those of trials.csv are known; a user names others.

#include <jointrom/batch/long_table.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// The heading that is `name` in any case of letters.
[[nodiscard]] std::optional<std::string> find_heading(const std::vector<std::string>& headings, std::string_view name);

/// The same. \param option of the command line that named it
/// \throws Failure usage "no-such-column", naming the nearest heading
[[nodiscard]] std::string heading_named(const std::vector<std::string>& headings, std::string_view name,
                                        std::string_view option);

/// The measured columns: those named, or of arc_deg, positive_deg and negative_deg those that are there.
/// \throws Failure usage "no-such-column"; "value-unknown" when none is named and none is there
[[nodiscard]] std::vector<std::string> value_columns(const std::vector<std::string>& headings,
                                                     const std::vector<std::string>& named);

/// The columns to group by: those named, or of joint, motion, side and condition those that are there.
/// \throws Failure usage "no-such-column"
[[nodiscard]] std::vector<std::string> group_columns(const std::vector<std::string>& headings,
                                                     const std::optional<std::vector<std::string>>& named);

/// The column that says whose a value is: that named, or participant or subject; empty when there is none.
[[nodiscard]] std::string participant_column(const std::vector<std::string>& headings, const std::string& named);

/// Drops columns in which all rows are empty from those that were not named.
[[nodiscard]] std::vector<std::string> filled_columns(const LongTable& table, const std::vector<std::string>& names);

}  // namespace jointrom
