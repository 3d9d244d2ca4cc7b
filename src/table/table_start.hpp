#pragma once

/// \file
/// Where the rows of a table begin, and what its columns hold.

#include <table/dialect_guess.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// The kind that most cells of each column have in the run that the dialect was chosen by; blank where all are.
[[nodiscard]] std::vector<CellKind> column_kinds(const HeadRows& head, const Run& run);

/// The run to build a layout around: the one that the dialect was chosen by, or an earlier one of at least five rows of
/// numbers alone, if that has another width; it is a trial of its own then.
[[nodiscard]] Run first_run(const DialectGuess& guess);

/// Index of the first row of the table: the first of five rows in a row (or as many as the run has) that fit the run,
/// or of rows before them that only a damaged row sets apart.
[[nodiscard]] std::size_t first_data_row(const HeadRows& head, const Run& run, std::span<const CellKind> kinds);

/// Whether commas seem to be both delimiter and decimal mark, as in "Time,Angle" above "0,00,12,5": whole numbers only,
/// and half as many names as columns, or no names and numbers like 05 in every other column.
/// \param names  how many the header has; 0 when there is no header
[[nodiscard]] bool is_comma_twice(const DialectGuess& guess, const Run& run, std::size_t columns, std::size_t names);

}  // namespace jointrom
