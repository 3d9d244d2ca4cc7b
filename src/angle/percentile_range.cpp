#include "percentile_range.hpp"

#include <jointrom/signal/order_statistic.hpp>

#include <cstddef>

namespace jointrom {

std::pair<Degrees, Degrees> percentile_range(std::span<const double> angle_deg) {
    const auto value_at = [angle_deg](std::size_t i) { return angle_deg[i]; };
    const auto tail = [](std::size_t count) { return static_cast<std::size_t>(0.01 * static_cast<double>(count)); };
    const auto other_tail = [tail](std::size_t count) { return count - 1 - tail(count); };
    return {Degrees(value_of_rank(angle_deg.size(), value_at, tail).at),
            Degrees(value_of_rank(angle_deg.size(), value_at, other_tail).at)};
}

}  // namespace jointrom
