#include "percentile_range.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace jointrom {

std::pair<Degrees, Degrees> percentile_range(std::span<const double> angle_deg) {
    std::vector<double> finite;
    finite.reserve(angle_deg.size());
    std::ranges::copy_if(angle_deg, std::back_inserter(finite), [](double x) { return std::isfinite(x); });
    if (finite.empty()) {
        return {};
    }
    const auto tail = static_cast<std::ptrdiff_t>(0.01 * static_cast<double>(finite.size()));
    const auto low = finite.begin() + tail, high = finite.end() - 1 - tail;
    std::nth_element(finite.begin(), low, finite.end());
    const double low_deg = *low;
    std::nth_element(low, high, finite.end());
    return {Degrees(low_deg), Degrees(*high)};
}

}  // namespace jointrom
