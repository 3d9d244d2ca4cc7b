#pragma once

/// \file
/// Channels that were sampled more slowly than the rows of their file follow each other.

#include <jointrom/recording/time_base.hpp>

#include <optional>
#include <span>
#include <vector>

namespace jointrom {

/// Samples on a time base of their own; missing where the slower channel has a gap.
struct OwnTimes {
    TimeBase times;
    std::vector<double> samples;
};

/// The samples of a channel that has values in some rows only, if these follow a pattern of their own.
///
/// Method: a value in every k-th row, or about every k-th (k >= 3, within a row), is a slower channel; values whose
/// stamps are even although those of all rows are not belong to one of several clocks written into one table. Anything
/// else is a channel with missing samples, which keeps the rows' times.
/// \param samples      one a row, missing where the row has none
/// \param resolution_s smallest step that the stamps of rows can show, 0 when unknown
[[nodiscard]] std::optional<OwnTimes> own_times(const TimeBase& rows, std::span<const double> samples,
                                                double resolution_s);

}  // namespace jointrom
