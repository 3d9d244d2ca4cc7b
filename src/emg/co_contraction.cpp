#include <jointrom/emg/co_contraction.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

double weighted_ratio(double low, double high) {
    return high > 0.0 ? low / high * (low + high) : 0.0;
}

}  // namespace

CoContraction co_contraction(std::span<const double> a, std::span<const double> b) {
    assert(a.size() == b.size());
    double steps = 0.0;
    double lower = 0.0;
    double higher = 0.0;
    double ratio = 0.0;
    for (std::size_t i = 0; i + 1 < a.size(); ++i) {
        if (std::isnan(a[i] + a[i + 1] + b[i] + b[i + 1])) {
            continue;
        }
        const auto [low, high] = std::minmax(a[i], b[i]);
        const auto [next_low, next_high] = std::minmax(a[i + 1], b[i + 1]);
        steps += 1.0;
        lower += 0.5 * (low + next_low);
        higher += 0.5 * (high + next_high);
        ratio += 0.5 * (weighted_ratio(low, high) + weighted_ratio(next_low, next_high));
    }
    if (steps == 0.0 || !(higher > 0.0)) {
        return {};
    }
    return {.common_area_pct = 200.0 * lower / (lower + higher),
            .weighted_ratio = ratio / steps,
            .mean_of_lower = lower / steps,
            .area_ratio = lower / higher};
}

}  // namespace jointrom
