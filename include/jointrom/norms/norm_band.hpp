#pragma once

/// \file
/// The normal range of a row: limits between which most people of its group lie. It is never the confidence interval
/// of the mean, which says how well the mean is known and is much narrower.

#include <jointrom/norms/norm_row.hpp>

#include <optional>
#include <string_view>

namespace jointrom {

enum class BandBasis {
    mean_and_sd,  ///< mean +- 1.96 SD, 95 % of people if the group is normal
    percentiles,  ///< two published percentiles the same way from the middle, at least 80 % apart
    extremes      ///< the least and greatest value seen
};

[[nodiscard]] std::string_view name_of(BandBasis basis);

struct NormBand {
    double lower_deg;
    double upper_deg;
    double coverage_pct;  ///< share of people in it; of extremes of n people the expected one, 100 (n - 1)/(n + 1)
    BandBasis basis;
};

/// The normal range; nothing for a row without spread, and for a skewed row without percentiles.
///
/// Method: of a row that is not skewed, mean +- 1.96 SD; else the pair of percentiles nearest to 2.5 and 97.5; else
/// the extremes when n is known and at least 40.
[[nodiscard]] std::optional<NormBand> normal_band(const NormRow& row);

/// Where a value stands among the people of the row.
struct NormStanding {
    /// Standard deviations from the mean; NaN for a skewed row and without SD.
    double z;
    /// Percent of people with less, between `percentile_low` and `percentile_high`: equal where SD gives it, apart
    /// where published percentiles do.
    double percentile_low;
    double percentile_high;
};

/// Nothing for a row without spread, and for a skewed row without percentiles.
///
/// Method: published percentiles before the normal distribution when the row is skewed, else the normal distribution.
/// Between two percentiles nothing is interpolated. A value that equals several percentiles spans them.
[[nodiscard]] std::optional<NormStanding> standing(const NormRow& row, double extent_deg);

}  // namespace jointrom
