#include <jointrom/signal/local_extrema.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <numeric>

namespace jointrom {
namespace {

using Samples = std::span<const double>;

struct Low {
    double value;
    std::size_t sample;
};

std::vector<SampleSpan> plateaus_of_maxima(Samples x) {
    std::vector<SampleSpan> plateaus;
    for (std::size_t i = 1; i + 1 < x.size(); ++i) {
        if (!(x[i - 1] < x[i])) {
            continue;
        }
        std::size_t behind = i + 1;
        while (behind + 1 < x.size() && x[behind] == x[i]) {
            ++behind;
        }
        if (x[behind] < x[i]) {
            plateaus.push_back({i, behind});
        }
        i = behind - 1;
    }
    return plateaus;
}

std::size_t middle(SampleSpan plateau) {
    return (plateau.first + plateau.last - 1) / 2;
}

/// Lowest sample between each maximum and the one before it (`less` decides which of equals is taken), then that behind
/// the last maximum: one more than there are maxima.
template <typename Less>
std::vector<Low> valleys(Samples x, const std::vector<SampleSpan>& maxima, Less less) {
    std::vector<Low> result;
    result.reserve(maxima.size() + 1);
    std::size_t first = 0;
    const auto add_until = [&](std::size_t last) {
        Low low{x[first], first};
        for (std::size_t i = first + 1; i < last; ++i) {
            if (less(x[i], low.value)) {
                low = {x[i], i};
            }
        }
        result.push_back(low);
    };
    for (const SampleSpan maximum : maxima) {
        add_until(maximum.first);
        first = maximum.last;
    }
    add_until(x.size());
    return result;
}

/// For every maximum, the lowest valley passed on the way back to a higher maximum. A stack keeps the maxima that
/// nothing later has covered, each with the lowest point between it and the one below it on the stack.
std::vector<Low> lows_on_the_way_back(const std::vector<double>& heights, const std::vector<Low>& valley_before) {
    struct Uncovered {
        double height;
        Low low;
    };
    std::vector<Uncovered> stack;
    std::vector<Low> lows;
    lows.reserve(heights.size());
    for (std::size_t k = 0; k < heights.size(); ++k) {
        Low low = valley_before[k];
        for (; !stack.empty() && stack.back().height <= heights[k]; stack.pop_back()) {
            if (stack.back().low.value < low.value) {
                low = stack.back().low;
            }
        }
        stack.push_back({heights[k], low});
        lows.push_back(low);
    }
    return lows;
}

std::vector<Extremum> maxima_without_gaps(Samples x, const ExtremumOptions& options) {
    const std::vector<SampleSpan> plateaus = plateaus_of_maxima(x);
    if (plateaus.empty()) {
        return {};
    }
    std::vector<double> heights;
    heights.reserve(plateaus.size());
    for (const SampleSpan plateau : plateaus) {
        heights.push_back(x[plateau.first]);
    }
    const std::vector<Low> left = lows_on_the_way_back(heights, valleys(x, plateaus, std::less_equal<>()));
    std::vector<Low> valleys_behind = valleys(x, plateaus, std::less<>());
    std::ranges::reverse(valleys_behind);
    std::ranges::reverse(heights);
    std::vector<Low> right = lows_on_the_way_back(heights, valleys_behind);
    std::ranges::reverse(right);

    std::vector<Extremum> maxima;
    for (std::size_t k = 0; k < plateaus.size(); ++k) {
        const double height = x[plateaus[k].first];
        const double prominence = height - std::max(left[k].value, right[k].value);
        if (prominence >= options.least_prominence && !(options.level && height < *options.level)) {
            maxima.push_back(
                {Turn::maximum, middle(plateaus[k]), height, prominence, left[k].sample, right[k].sample, plateaus[k]});
        }
    }
    return maxima;
}

std::vector<Extremum> maxima_across_gaps(Samples x, const ExtremumOptions& options) {
    std::vector<double> present;
    std::vector<std::size_t> position;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!std::isnan(x[i])) {
            present.push_back(x[i]);
            position.push_back(i);
        }
    }
    std::vector<Extremum> maxima = maxima_without_gaps(present, options);
    for (Extremum& maximum : maxima) {
        maximum.sample = position[maximum.sample];
        maximum.left_base = position[maximum.left_base];
        maximum.right_base = position[maximum.right_base];
        maximum.plateau = {position[maximum.plateau.first], position[maximum.plateau.last - 1] + 1};
    }
    return maxima;
}

/// Keeps the highest first, then each that is far enough from all that are kept.
void drop_crowded(std::vector<Extremum>& maxima, std::size_t least_distance) {
    std::vector<std::size_t> by_height(maxima.size());
    std::iota(by_height.begin(), by_height.end(), std::size_t{0});
    std::ranges::stable_sort(by_height, [&](auto a, auto b) { return maxima[a].value > maxima[b].value; });
    std::vector<bool> dropped(maxima.size(), false);
    for (const std::size_t k : by_height) {
        if (dropped[k]) {
            continue;
        }
        for (std::size_t j = k; j-- > 0 && maxima[k].sample - maxima[j].sample < least_distance;) {
            dropped[j] = true;
        }
        for (std::size_t j = k + 1; j < maxima.size() && maxima[j].sample - maxima[k].sample < least_distance; ++j) {
            dropped[j] = true;
        }
    }
    std::vector<Extremum> kept;
    for (std::size_t k = 0; k < maxima.size(); ++k) {
        if (!dropped[k]) {
            kept.push_back(maxima[k]);
        }
    }
    maxima = std::move(kept);
}

}  // namespace

std::vector<Extremum> local_maxima(Samples samples, ExtremumOptions options) {
    const bool gaps = std::ranges::any_of(samples, [](double x) { return std::isnan(x); });
    std::vector<Extremum> maxima = gaps ? maxima_across_gaps(samples, options) : maxima_without_gaps(samples, options);
    if (options.least_distance > 1) {
        drop_crowded(maxima, options.least_distance);
    }
    return maxima;
}

std::vector<Extremum> local_minima(Samples samples, ExtremumOptions options) {
    std::vector<double> upside_down(samples.size());
    std::ranges::transform(samples, upside_down.begin(), std::negate<>());
    if (options.level) {
        options.level = -*options.level;
    }
    std::vector<Extremum> minima = local_maxima(upside_down, options);
    for (Extremum& minimum : minima) {
        minimum.turn = Turn::minimum;
        minimum.value = -minimum.value;
    }
    return minima;
}

ExtremumWidth extremum_width(Samples samples, const Extremum& extremum, double relative) {
    assert(relative >= 0.0 && relative <= 1.0);
    const double sign = extremum.turn == Turn::maximum ? 1.0 : -1.0;
    const auto height = [&](std::size_t i) { return sign * samples[i]; };
    const double level = sign * extremum.value - relative * extremum.prominence;

    std::size_t left = extremum.sample;
    while (left > extremum.left_base && level < height(left)) {
        --left;
    }
    std::size_t right = extremum.sample;
    while (right < extremum.right_base && level < height(right)) {
        ++right;
    }
    ExtremumWidth width{sign * level, static_cast<double>(left), static_cast<double>(right)};
    if (!(height(left) >= level)) {
        width.left += (level - height(left)) / (height(left + 1) - height(left));
    }
    if (!(height(right) >= level)) {
        width.right -= (level - height(right)) / (height(right - 1) - height(right));
    }
    return width;
}

}  // namespace jointrom
