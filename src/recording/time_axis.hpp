#pragma once

/// \file
/// When the rows of a table were sampled.

#include <jointrom/core/finding.hpp>
#include <jointrom/recording/time_base.hpp>
#include <jointrom/table/table_reader.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

namespace jointrom {

/// The times of samples, and which row of the table each comes from.
struct TimeAxis {
    static constexpr std::size_t no_row = std::numeric_limits<std::size_t>::max();

    TimeBase times;
    double resolution_s = 0.0;        ///< smallest step that the stamps can show; 0 when unknown
    std::vector<std::size_t> row_of;  ///< row of each sample, no_row where a row is missing; empty: sample i is row i

    /// The values of rows as samples, missing where there is no row.
    [[nodiscard]] std::vector<double> samples(std::vector<double> values) const;
};

/// What the user has said about the clock.
struct StatedClock {
    Hertz rate;                       ///< unset when not stated
    std::optional<std::size_t> part;  ///< which part of a clock that starts again, from 1; unset: the longest
};

/// The time axis that a column of times gives.
///
/// Method: without a unit, the most plausible one is taken. Rows are left out where the clock runs backwards (see
/// forward_time.hpp) and where a time is repeated. If the stamps then stand on an even grid within their rounding, the
/// axis is regular and missing rows are missing samples; else it keeps the stamps. Times on a calendar count from the
/// first row. A stated rate that contradicts the stamps by more than 2 % holds for all rows.
/// \param table the column's values are moved out, and its heading and format are noted in the description
/// \throws Failure unreadable_data "time-unusable" when times do not rise, usage "no-such-trial"
[[nodiscard]] TimeAxis axis_of_time_column(Table& table, std::size_t column, const StatedClock& stated,
                                           Findings& findings);

/// One sample a row, at a known rate.
[[nodiscard]] TimeAxis axis_at_rate(std::size_t rows, Hertz rate);

}  // namespace jointrom
