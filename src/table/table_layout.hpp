#pragma once

/// \file
/// Where the parts of a table stand: lines above it, names, units, the first row of numbers, and trials side by side.

#include <table/column_groups.hpp>
#include <table/dialect_guess.hpp>

#include <jointrom/core/finding.hpp>

#include <cstddef>
#include <string>
#include <vector>

namespace jointrom {

struct TableLayout {
    std::size_t columns = 0;
    std::size_t header_line = 0;  ///< 0 when there is none
    std::size_t units_line = 0;
    std::size_t first_data_line = 0;
    std::size_t first_data_row = 0;     ///< index among the head's rows
    std::string header_text;            ///< the header line as it stands
    std::vector<std::string> headings;  ///< one a column
    std::vector<std::string> units;     ///< one a column
    std::vector<CellKind> kinds;        ///< one a column; blank where the head has no cell that is not blank
    std::vector<std::string> preamble;
    std::vector<ColumnGroup> trials;  ///< side by side; at least one
    Findings findings;
};

/// The layout around the run that the dialect was chosen by.
///
/// Method: the table starts at the first five rows (or as many as the run has) that fit the run; the line above is the
/// header if it holds texts for at least half of the columns; a line between them that holds only units gives units. A
/// line above the header with at least two labels at equal distances names groups of columns: trials side by side if
/// each group starts with a time, else a common first part of the names. Without a header, lines such as
/// "Channel 3: 'Elbow', units: deg" above the table give names and units. Headings that repeat from a time column on
/// are trials side by side, too.
/// \param file  name for messages
/// \throws Failure no-table, comma-twice, too-many-columns
[[nodiscard]] TableLayout find_layout(const DialectGuess& guess, const std::string& file);

}  // namespace jointrom
