#pragma once

/// \file
/// Single values of an ordered series, without ordering or copying the series.

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <vector>

namespace jointrom {

/// The value of some rank, counted from 0 at the smallest, and the one before it (the same at rank 0).
struct RankedValue {
    double before = std::numeric_limits<double>::quiet_NaN();
    double at = std::numeric_limits<double>::quiet_NaN();
};

/// The value of a rank among many.
///
/// Method: of a long series, some thousand values spread over it tell two bounds that the rank lies between; one pass
/// counts what is below them and gathers what lies between, and only that is partially sorted. Where the bounds turn
/// out to be wrong everything is gathered. The result is exact either way.
/// Missing samples: whatever is not finite is left out.
///
/// \param value_at value i, for i below `size`; called more than once
/// \param rank_of  the rank of interest, below the number of finite values, which it is given (not 0)
/// \return         NaN when no value is finite
/// \par Complexity O(size); memory for some hundredths of the values
template <typename ValueAt, typename RankOf>
[[nodiscard]] RankedValue value_of_rank(std::size_t size, ValueAt value_at, RankOf rank_of) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    constexpr std::size_t sample_size = 8192;
    constexpr std::size_t margin = 226;  // ranks in the sample: five standard deviations of its median

    const auto sorted_around = [](std::vector<double>& values, std::size_t rank) {
        const auto place = values.begin() + static_cast<std::ptrdiff_t>(rank);
        std::nth_element(values.begin(), place, values.end());
        return rank == 0 ? RankedValue{*place, *place} : RankedValue{*std::max_element(values.begin(), place), *place};
    };
    std::vector<double> inside;
    inside.reserve(std::min(size, 4 * sample_size));
    double low = -infinity, high = infinity;
    if (size > 4 * sample_size) {
        const std::size_t stride = size / sample_size | 1U;
        for (std::size_t i = 0; i < size; i += stride) {
            if (const double x = value_at(i); std::isfinite(x)) {
                inside.push_back(x);
            }
        }
        if (!inside.empty()) {
            std::sort(inside.begin(), inside.end());
            const std::size_t rank = rank_of(size) * inside.size() / size;
            low = rank > margin ? inside[rank - margin] : -infinity;
            high = rank + margin < inside.size() ? inside[rank + margin] : infinity;
        }
    }
    while (true) {
        inside.clear();
        std::size_t count = 0, below = 0;
        for (std::size_t i = 0; i < size; ++i) {
            const double x = value_at(i);
            const bool finite = std::isfinite(x);
            const bool is_below = x < low;
            count += finite ? 1U : 0U;
            below += (finite & is_below) ? 1U : 0U;
            // One branch that is seldom taken; on which side of the bounds a value lies cannot be predicted.
            if (finite & !is_below & (x <= high)) {
                inside.push_back(x);
            }
        }
        if (count == 0) {
            return {};
        }
        const std::size_t rank = rank_of(count);
        const std::size_t first = rank == 0 ? 0 : rank - 1;
        if (first >= below && rank < below + inside.size()) {
            return sorted_around(inside, rank - below);
        }
        low = -infinity;
        high = infinity;
    }
}

}  // namespace jointrom
