#pragma once

/// \file
/// A stretch of consecutive samples, and a window of time.

#include <jointrom/core/units.hpp>

#include <cstddef>
#include <span>

namespace jointrom {

/// Samples `first <= i < last`.
struct SampleSpan {
    std::size_t first = 0;
    std::size_t last = 0;

    [[nodiscard]] constexpr std::size_t size() const noexcept { return last - first; }
    [[nodiscard]] constexpr bool empty() const noexcept { return first >= last; }
    [[nodiscard]] constexpr bool contains(std::size_t i) const noexcept { return first <= i && i < last; }
    friend constexpr bool operator==(SampleSpan, SampleSpan) noexcept = default;
};

/// Times `start <= t <= end`, in seconds on the recording's own clock.
struct TimeWindow {
    Seconds start;
    Seconds end;

    [[nodiscard]] bool is_set() const noexcept { return start.is_set() && end.is_set(); }
};

/// The part of `samples` that `span` names. \pre span.last <= samples.size()
[[nodiscard]] inline std::span<const double> slice(std::span<const double> samples, SampleSpan span) {
    return samples.subspan(span.first, span.size());
}

}  // namespace jointrom
