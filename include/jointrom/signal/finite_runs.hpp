#pragma once

/// \file
/// The pieces of a recording between its missing samples.

#include <jointrom/core/sample_span.hpp>

#include <algorithm>
#include <limits>
#include <span>
#include <vector>

namespace jointrom {

/// Every longest stretch of samples without a missing one, in order; empty when all are missing.
[[nodiscard]] std::vector<SampleSpan> finite_runs(std::span<const double> samples);

/// Each finite run of `samples` replaced by what `method` makes of it, missing samples left missing: the way to filter
/// a recording with gaps.
///
/// \param method takes a std::span<const double> without missing samples, gives as many samples
template <typename Method>
[[nodiscard]] std::vector<double> map_finite_runs(std::span<const double> samples, Method method) {
    const std::vector<SampleSpan> runs = finite_runs(samples);
    if (runs.size() == 1 && runs.front().size() == samples.size()) {
        return method(samples);
    }
    std::vector<double> result(samples.size(), std::numeric_limits<double>::quiet_NaN());
    for (const SampleSpan run : runs) {
        std::ranges::copy(method(slice(samples, run)), result.data() + run.first);
    }
    return result;
}

/// The same where the samples are: `method` changes each run, what lies between becomes NaN.
///
/// \param method takes a std::span<double> without missing samples
template <typename Method>
void change_finite_runs(std::span<double> samples, Method method) {
    auto behind = samples.begin();
    for (const SampleSpan run : finite_runs(samples)) {
        const std::span<double> part = samples.subspan(run.first, run.size());
        std::fill(behind, part.begin(), std::numeric_limits<double>::quiet_NaN());
        method(part);
        behind = part.end();
    }
    std::fill(behind, samples.end(), std::numeric_limits<double>::quiet_NaN());
}

}  // namespace jointrom
