#pragma once

/// \file
/// The loop that almost every row goes through.

#include <table/column_store.hpp>

namespace jointrom {

/// Reads rows of plain numbers, blank cells, times and unquoted texts into `columns`; returns the front of the first
/// line that is anything else, or `end`. Delimiters at the end of a row are passed over.
/// \param mark  the decimal mark; a zero byte while it is not known, which ends the reading at the first number with
/// one \pre the text ends in '\n', and NumberShape::reach bytes behind `end` are readable
[[nodiscard]] const char* read_plain_rows(const char* begin, const char* end, char delimiter, char mark,
                                          ColumnStore& columns);

}  // namespace jointrom
