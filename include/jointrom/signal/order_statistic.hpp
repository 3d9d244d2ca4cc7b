#pragma once

/// \file
/// Single values of an ordered series, without ordering or copying the series.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <span>
#include <utility>
#include <vector>

namespace jointrom {

/// The value of some rank, counted from 0 at the smallest, and the one before it.
struct RankedValue {
    double before = std::numeric_limits<double>::quiet_NaN();
    double at = std::numeric_limits<double>::quiet_NaN();
};

/// The value that would stand at `rank` if `values` were sorted, and the one before it. Moves the values.
///
/// Method: quickselect around the value of that rank in a small sample. Every value is written to the front and to the
/// back of what is left, and stays where the next one does not overwrite it: on which side of a pivot noise falls
/// cannot be predicted, and wrong guesses of the processor cost more than all of that.
///
/// \return before is negative infinity at rank 0
/// \pre rank < values.size(), none is NaN
/// \par Complexity O(size); memory for as many values
[[nodiscard]] inline RankedValue select_rank(std::vector<double>& values, std::size_t rank) {
    constexpr std::size_t few = 32;
    constexpr std::size_t sample_size = 15;
    constexpr int most_rounds = 64;  // three or four are usual
    const auto divide = [](std::span<const double> from, std::span<double> to, auto goes_first) {
        std::size_t front = 0, back = from.size();
        for (const double x : from) {
            to[front] = to[back - 1] = x;
            const std::size_t first = goes_first(x) ? 1U : 0U;
            front += first;
            back -= 1U - first;
        }
        return front;
    };
    std::vector<double> space(values.size());
    std::span<double> part(values), other(space);
    double largest_below = -std::numeric_limits<double>::infinity();
    for (int round = 0; round < most_rounds && part.size() > few; ++round) {
        std::array<double, sample_size> sample;
        for (std::size_t k = 0; k < sample_size; ++k) {
            sample[k] = part[(2 * k + 1) * part.size() / (2 * sample_size)];
        }
        std::sort(sample.begin(), sample.end());
        const double pivot = sample[rank * sample_size / part.size()];
        const std::size_t below = divide(part, other, [=](double x) { return x < pivot; });
        if (rank < below) {
            std::swap(part, other);
            part = part.first(below);
            other = other.first(below);
            continue;
        }
        rank -= below;
        const std::size_t alike = divide(other.subspan(below), part, [=](double x) { return x == pivot; });
        if (rank < alike) {
            const auto lower = other.first(below);
            const bool is_first = rank == 0;
            return {!is_first ? pivot : lower.empty() ? largest_below : *std::ranges::max_element(lower), pivot};
        }
        rank -= alike;
        largest_below = pivot;
        const std::size_t above = part.size() - below - alike;
        part = part.subspan(alike, above);
        other = other.first(above);
    }
    const auto place = part.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(part.begin(), place, part.end());
    return {rank == 0 ? largest_below : *std::max_element(part.begin(), place), *place};
}

/// The value of a rank among many.
///
/// Method: of a long series, some thousand values spread over it tell two bounds that the rank lies between; one pass
/// counts what is below them and gathers what lies between, and only that is searched. Where the bounds turn
/// out to be wrong everything is gathered. The result is exact either way.
/// Missing samples: whatever is not finite is left out.
///
/// \param value_at value i, for i below `size`; called more than once
/// \param rank_of  the rank of interest, below the number of finite values, which it is given (not 0)
/// \return         NaN when no value is finite; at rank 0 the same value twice
/// \par Complexity O(size); memory for some hundredths of the values
template <typename ValueAt, typename RankOf>
[[nodiscard]] RankedValue value_of_rank(std::size_t size, ValueAt value_at, RankOf rank_of) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    constexpr std::size_t sample_size = 8192;
    constexpr std::size_t margin = 226;  // ranks in the sample: five standard deviations of its median

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
            const RankedValue found = select_rank(inside, rank - below);
            return rank == 0 ? RankedValue{found.at, found.at} : found;
        }
        low = -infinity;
        high = infinity;
    }
}

}  // namespace jointrom
