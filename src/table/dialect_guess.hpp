#pragma once

/// \file
/// Which delimiter and decimal mark a text is written with.

#include <table/head_rows.hpp>

#include <cstddef>
#include <optional>
#include <string_view>

namespace jointrom {

struct DialectGuess {
    char delimiter = ',';
    char decimal_mark = '.';
    bool stated = false;         ///< both were, by the caller
    bool decimal_known = false;  ///< stated, or some number can be read in this way only
    HeadRows head;
    std::optional<Run> run;  ///< nothing when no row has a number
};

/// Removes a first line "sep=;", as spreadsheets write it, and returns the delimiter that it names.
[[nodiscard]] std::optional<char> take_separator_line(std::string_view& text);

/// The delimiter and decimal mark that make the head of a table most table-like.
///
/// Method: every delimiter that occurs is tried with either decimal mark (a mark that is the delimiter only where cells
/// are quoted); best_run() rates what the first 16 rows look like then. Where that is not a clear run of numbers to the
/// end of the sample, 256 rows and then the whole of `text` are looked at. Grouping of thousands costs 2 % and runs of
/// blanks as the delimiter 1 %, so that the plainer of two equal readings wins. The idea of rating how even rows and
/// how clean cell types come out is that of the reference. \param text      whole lines from the front of a table
/// \param delimiter,decimal_mark  what is known already
/// \par Reference  G.J.J. van den Burg, A. Nazabal, C. Sutton, "Wrangling messy CSV files by detecting row and type
///      patterns", Data Mining and Knowledge Discovery 33, 2019
[[nodiscard]] DialectGuess guess_dialect(std::string_view text, std::size_t first_line, std::optional<char> delimiter,
                                         std::optional<char> decimal_mark);

}  // namespace jointrom
