#pragma once

/// \file
/// Looking up phases and repetitions by time. Private.

#include <jointrom/core/units.hpp>

#include <algorithm>
#include <span>

namespace jointrom {

/// Those that end later than `from` and begin before `to`. \pre in order of time, without overlap
template <typename Stretch>
[[nodiscard]] std::span<const Stretch> between(std::span<const Stretch> stretches, Seconds from, Seconds to) {
    const auto first = std::ranges::upper_bound(stretches, from, {}, &Stretch::end);
    const auto last = std::lower_bound(first, stretches.end(), to,
                                       [](const Stretch& stretch, Seconds time) { return stretch.start < time; });
    return {first, last};
}

}  // namespace jointrom
