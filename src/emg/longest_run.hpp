#pragma once

/// \file
/// The longest stretch without a missing sample. Private.

#include <jointrom/core/sample_span.hpp>
#include <jointrom/signal/finite_runs.hpp>

namespace jointrom {

/// Empty when every sample is missing; of equally long stretches the first.
[[nodiscard]] inline std::span<const double> longest_run(std::span<const double> samples) {
    const std::vector<SampleSpan> runs = finite_runs(samples);
    const auto longest = std::ranges::max_element(runs, {}, &SampleSpan::size);
    return longest == runs.end() ? std::span<const double>() : slice(samples, *longest);
}

}  // namespace jointrom
