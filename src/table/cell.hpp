#pragma once

/// \file
/// What a single cell is: nothing, a number, a time or text.

#include <optional>
#include <string_view>

namespace jointrom {

enum class CellKind { blank, number, time, text };

/// What the marks in a number tell of the decimal mark. "12,345" could be either; "0,020" and "1,5" could not.
enum class MarkEvidence { none, either, point, comma };

struct CellNumber {
    double value = 0.0;
    MarkEvidence evidence = MarkEvidence::none;
    char grouping_mark = 0;  ///< mark between thousands, if there was one
};

/// Whether a cell is empty or a word for "no sample": nan, na, n/a, #n/a, #nv, null, none, missing, "-", "--", "---",
/// ".", "?", "*" or a form of infinity; case does not matter.
[[nodiscard]] bool is_missing_word(std::string_view cell);

/// The number that fills the whole cell, with `decimal_mark` and possibly marks between thousands (the other of '.'
/// and ',', an apostrophe or a blank). Grouping is strict: one to three digits that do not begin with 0, then groups of
/// three. Correctly rounded; nothing for text, infinity, hexadecimal digits or a number out of range.
[[nodiscard]] std::optional<CellNumber> read_number_cell(std::string_view cell, char decimal_mark);

/// The kind of a cell under a decimal mark.
[[nodiscard]] CellKind kind_of_cell(std::string_view cell, char decimal_mark);

}  // namespace jointrom
