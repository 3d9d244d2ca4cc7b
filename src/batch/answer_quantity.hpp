#pragma once

/// \file
/// Which number of a computed trial an answer is about, and the answer as a number. Private.

#include <jointrom/batch/answer_sheet.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace jointrom {

/// A column of the results, read in its own or in the opposite direction.
struct QuantityName {
    std::string column;  ///< empty: unknown
    double scale = 1.0;  ///< -1 for a direction that counts negative in the results, such as extension
};

/// The column that `typed` names for this trial: a column itself, with or without its unit, the name of one of the
/// trial's directions, or a usual word such as "range of motion".
[[nodiscard]] QuantityName quantity_named(std::string_view typed, const ComputedTrial& trial);

/// Names that quantity_named() knows for this trial, for "did you mean".
[[nodiscard]] std::vector<std::string> known_quantities(const ComputedTrial& trial);

/// "deg", "deg/s", "s", ... from the end of a column's name; empty for a count.
[[nodiscard]] std::string unit_of_column(std::string_view column);

/// Small letters, one blank for each run of blanks, '_', '-' and '/'.
[[nodiscard]] std::string plain_words(std::string_view text);

/// The column with the expanded uncertainty of another: arc_u95_deg for arc_deg.
[[nodiscard]] std::string expanded_column(std::string_view column);

/// A reading as a number in the unit of its column.
struct NumberOnSheet {
    double value;
    double half_last_digit;  ///< half a unit of the last digit that was written
};

/// Reads "133", "133.0 deg", "133°", "2,31 rad". Nothing when it is no number, or its unit cannot be that of the
/// column.
[[nodiscard]] std::optional<NumberOnSheet> number_on_sheet(std::string_view text, std::string_view unit,
                                                           std::string_view column_unit);

}  // namespace jointrom
