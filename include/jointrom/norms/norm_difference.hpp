#pragma once

/// \file
/// Where sources disagree about the same people.

#include <jointrom/norms/norm_row.hpp>

#include <span>
#include <vector>

namespace jointrom {

/// Two sources about the same direction and about people that could be the same.
struct NormDifference {
    const NormRow* first;
    const NormRow* second;
    double difference_deg;  ///< value of the second minus value of the first
    double difference_sd;   ///< in standard deviations between people; NaN when neither row has one that describes them
};

/// Every pair of rows that can be compared.
///
/// Method: rows of different sources, of the same direction or arc, whose ages overlap (rows for any age overlap with
/// all) and of which neither excludes the other's sex or mode: active and passive are never compared, and a source that
/// states neither is compared with both. The SD is the root mean square of those that both rows have, or the one that
/// one has; skewed rows have none here. Pairs of stated modes come before others, active before passive, the greatest
/// difference first.
[[nodiscard]] std::vector<NormDifference> norm_differences(std::span<const NormRow* const> rows);

}  // namespace jointrom
