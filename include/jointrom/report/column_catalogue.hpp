#pragma once

/// \file
/// The one list of every column that a result can have. CSV heads, JSON keys, the headings of printed tables and
/// docs/columns.md all come from it.

#include <span>
#include <string>
#include <string_view>

namespace jointrom {

struct ColumnKind {
    std::string_view key;      ///< CSV head and JSON key; carries the unit, e.g. "arc_deg"
    int decimals;              ///< printed after the decimal mark
    std::string_view heading;  ///< in printed tables, without the unit
    std::string_view meaning;  ///< one sentence

    /// The unit for print: "deg", "deg/s", "s", "Hz", "mV", "%" or empty.
    [[nodiscard]] std::string_view unit() const;
    /// The key of a number that goes with this one: with "u", "arc_deg" gives "arc_u_deg".
    [[nodiscard]] std::string key_with(std::string_view suffix) const;
};

/// Every column, sorted by key.
[[nodiscard]] std::span<const ColumnKind> column_catalogue();

/// \throws std::out_of_range for a key that is not in the catalogue (a mistake in the calling code)
[[nodiscard]] const ColumnKind& column_kind(std::string_view key);

}  // namespace jointrom
