#include <jointrom/norms/norm_band.hpp>

#include <jointrom/core/uncertainty.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double band_pct = 95.0;
constexpr double least_percentile_band_pct = 80.0;
constexpr std::size_t least_people_for_extremes = 40;

bool is_extreme(const NormPercentile& percentile) {
    return percentile.percent <= 0.0 || percentile.percent >= 100.0;
}

bool has_normal_shape(const NormRow& row) {
    return !row.is_skewed && row.kind == NormValueKind::mean && row.sd_deg > 0.0;
}

/// The pair of published percentiles p and 100 - p with the least p that is not below 2.5.
std::optional<NormBand> percentile_band(const NormRow& row) {
    std::optional<NormBand> best;
    for (const NormPercentile& low : row.percentiles) {
        const auto high = std::ranges::find_if(row.percentiles, [&](const NormPercentile& other) {
            return std::abs(other.percent - (100.0 - low.percent)) < 1e-9;
        });
        const double coverage = 100.0 - 2.0 * low.percent;
        if (is_extreme(low) || high == row.percentiles.end() || coverage < least_percentile_band_pct) {
            continue;
        }
        if (!best || std::abs(coverage - band_pct) < std::abs(best->coverage_pct - band_pct)) {
            best = NormBand{low.value_deg, high->value_deg, coverage, BandBasis::percentiles};
        }
    }
    return best;
}

std::optional<NormBand> extremes_band(const NormRow& row) {
    if (row.percentiles.size() < 2 || row.percentiles.front().percent > 0.0 || row.percentiles.back().percent < 100.0 ||
        row.n.value_or(0) < least_people_for_extremes) {
        return std::nullopt;
    }
    const double n = static_cast<double>(*row.n);
    return NormBand{row.percentiles.front().value_deg, row.percentiles.back().value_deg, 100.0 * (n - 1.0) / (n + 1.0),
                    BandBasis::extremes};
}

}  // namespace

std::string_view name_of(BandBasis basis) {
    switch (basis) {
    case BandBasis::mean_and_sd:
        return "mean and SD";
    case BandBasis::percentiles:
        return "percentiles";
    case BandBasis::extremes:
        break;
    }
    return "extremes";
}

std::optional<NormBand> normal_band(const NormRow& row) {
    if (has_normal_shape(row)) {
        const double reach = student_factor(band_pct / 100.0, std::numeric_limits<double>::infinity()) * row.sd_deg;
        return NormBand{row.value_deg - reach, row.value_deg + reach, band_pct, BandBasis::mean_and_sd};
    }
    const std::optional<NormBand> percentiles = percentile_band(row);
    return percentiles ? percentiles : extremes_band(row);
}

std::optional<NormStanding> standing(const NormRow& row, double extent_deg) {
    if (std::isnan(extent_deg)) {
        return std::nullopt;
    }
    if (has_normal_shape(row)) {
        const double z = (extent_deg - row.value_deg) / row.sd_deg;
        const double percentile = 50.0 * std::erfc(-z / std::sqrt(2.0));
        return NormStanding{z, percentile, percentile};
    }
    if (row.percentiles.size() < 2) {
        return std::nullopt;
    }
    NormStanding result{missing, 0.0, 100.0};
    bool is_equal = false;
    for (const NormPercentile& percentile : row.percentiles) {
        if (percentile.value_deg < extent_deg) {
            result.percentile_low = percentile.percent;
        } else if (percentile.value_deg > extent_deg) {
            result.percentile_high = is_equal ? result.percentile_high : percentile.percent;
            break;
        } else {
            result.percentile_low = is_equal ? result.percentile_low : percentile.percent;
            result.percentile_high = percentile.percent;
            is_equal = true;
        }
    }
    return result;
}

}  // namespace jointrom
