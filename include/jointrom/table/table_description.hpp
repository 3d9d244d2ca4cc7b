#pragma once

/// \file
/// What was understood of a text table before its numbers were read.

#include <cstddef>
#include <string>
#include <vector>

namespace jointrom {

enum class Encoding { utf8, utf8_with_mark, utf16_little_endian, utf16_big_endian, windows_1252 };

/// How a text table is written.
struct Dialect {
    Encoding encoding = Encoding::utf8;
    char delimiter = ',';     ///< ',', ';', '\t', '|' or ' ' for runs of blanks
    char decimal_mark = '.';  ///< '.' or ','
    char grouping_mark = 0;   ///< mark between thousands, 0 for none
};

/// A run of consecutive rows of numbers: one trial of several in a file.
struct TableBlock {
    std::size_t first_line = 0;  ///< as an editor counts, from 1
    std::size_t last_line = 0;
    std::size_t rows = 0;
    std::size_t first_column = 1;  ///< a trial beside others starts further right
    std::size_t last_column = 0;
    std::string label;  ///< e.g. the group heading above it; empty when there is none
};

struct TableDescription {
    Dialect dialect;
    std::size_t header_line = 0;        ///< 0 when there is no header row
    std::size_t units_line = 0;         ///< 0 when there is no row of units
    std::vector<std::string> headings;  ///< one a column, repeated names told apart as NAME#2; "column N" where none
    std::vector<std::string> units;     ///< one a column, empty where unknown
    std::vector<std::string> preamble;  ///< lines above the table, as text
    std::vector<std::string> footer;    ///< lines below the table, as text
    std::vector<TableBlock> blocks;     ///< trials found in the file, in reading order; at least one
    std::size_t block_used = 0;         ///< index into blocks
    std::size_t rows = 0;               ///< rows read
    std::string time_heading;           ///< the time column; empty when times come from a stated rate
    std::string time_format;            ///< e.g. "seconds", "milliseconds", "minutes:seconds", "clock", "ISO 8601"
};

}  // namespace jointrom
