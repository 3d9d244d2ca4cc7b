#pragma once

/// \file
/// Single values of an ordered series, without ordering or copying the series.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <vector>

namespace jointrom {

/// The value of some rank, counted from 0 at the smallest, and the one before it (the same at rank 0).
struct RankedValue {
    double before = std::numeric_limits<double>::quiet_NaN();
    double at = std::numeric_limits<double>::quiet_NaN();
};

/// The value that would stand at `rank` if `values` were sorted. Moves them: those before `rank` are no larger then.
///
/// Method: quickselect. Each value is swapped, whether it is below the pivot or not, and only counted if it is: which
/// side noise falls on cannot be predicted, and wrong guesses of the processor cost more than all of that.
///
/// \pre rank < values.size(), none is NaN
/// \par Complexity O(size)
[[nodiscard]] inline double select_rank(std::span<double> values, std::size_t rank) {
    constexpr std::size_t few = 24;
    constexpr int most_rounds = 64;  // far more than many values usually take
    const auto move_to_front = [](std::span<double> part, auto belongs) {
        std::size_t front = 0;
        for (double& place : part) {
            const double value = place;
            place = part[front];
            part[front] = value;
            front += belongs(value) ? 1U : 0U;
        }
        return front;
    };
    for (int round = 0; round < most_rounds && values.size() > few; ++round) {
        const double first = values.front(), middle = values[values.size() / 2], last = values.back();
        const double pivot = std::max(std::min(first, middle), std::min(std::max(first, middle), last));
        const std::size_t below = move_to_front(values, [=](double x) { return x < pivot; });
        if (rank < below) {
            values = values.first(below);
            continue;
        }
        values = values.subspan(below);
        rank -= below;
        const std::size_t alike = move_to_front(values, [=](double x) { return x == pivot; });
        if (rank < alike) {
            return pivot;
        }
        values = values.subspan(alike);
        rank -= alike;
    }
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values.begin(), place, values.end());
    return *place;
}

/// The value of a rank among many.
///
/// Method: of a long series, some hundred or thousand values spread over it tell two bounds that the rank lies between;
/// one pass counts what is below them and gathers what lies between, and only that is searched. Where the bounds turn
/// out to be wrong everything is gathered. The result is exact either way.
/// Missing samples: whatever is not finite is left out.
///
/// \param value_at value i, for i below `size`; called more than once
/// \param rank_of  the rank of interest, below the number of finite values, which it is given (not 0)
/// \return         NaN when no value is finite
/// \par Complexity O(size); memory for some of the values, of a very long series a few hundredths
template <typename ValueAt, typename RankOf>
[[nodiscard]] RankedValue value_of_rank(std::size_t size, ValueAt value_at, RankOf rank_of) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    constexpr std::size_t long_enough = 2048;
    constexpr std::size_t largest_sample = 8192;
    constexpr std::size_t values_per_sample = 16;

    std::vector<double> inside;
    double low = -infinity, high = infinity;
    if (size >= long_enough) {
        const std::size_t stride = std::max(values_per_sample, size / largest_sample) | 1U;
        for (std::size_t i = 0; i < size; i += stride) {
            if (const double x = value_at(i); std::isfinite(x)) {
                inside.push_back(x);
            }
        }
        if (!inside.empty()) {
            std::sort(inside.begin(), inside.end());
            const std::size_t rank = rank_of(size) * inside.size() / size;
            // Five standard deviations of the rank that the value has in the sample.
            const double share = static_cast<double>(rank + 1) / static_cast<double>(inside.size() + 1);
            const double deviation = std::sqrt(static_cast<double>(inside.size()) * share * (1.0 - share));
            const auto margin = static_cast<std::size_t>(5.0 * deviation + 2.0);
            low = rank > margin ? inside[rank - margin] : -infinity;
            high = rank + margin < inside.size() ? inside[rank + margin] : infinity;
        }
    }
    while (true) {
        std::array<double, 256> found;
        inside.clear();
        std::size_t count = 0, below = 0;
        for (std::size_t first = 0; first < size; first += found.size()) {
            const std::size_t end = std::min(size, first + found.size());
            std::size_t gathered = 0;
            for (std::size_t i = first; i < end; ++i) {
                const double x = value_at(i);
                const bool finite = std::isfinite(x);
                const bool is_below = x < low;
                count += finite ? 1U : 0U;
                below += (finite & is_below) ? 1U : 0U;
                // No branch: on which side of the bounds a value lies cannot be predicted.
                found[gathered] = x;
                gathered += (finite & !is_below & (x <= high)) ? 1U : 0U;
            }
            inside.insert(inside.end(), found.begin(), found.begin() + static_cast<std::ptrdiff_t>(gathered));
        }
        if (count == 0) {
            return {};
        }
        const std::size_t rank = rank_of(count);
        const std::size_t first = rank == 0 ? 0 : rank - 1;
        if (first >= below && rank < below + inside.size()) {
            const auto place = inside.begin() + static_cast<std::ptrdiff_t>(rank - below);
            const double value = select_rank(inside, rank - below);
            return {rank == 0 ? value : *std::max_element(inside.begin(), place), value};
        }
        low = -infinity;
        high = infinity;
    }
}

}  // namespace jointrom
