#include <jointrom/signal/finite_runs.hpp>

#include <cmath>
#include <cstddef>

namespace jointrom {
namespace {

/// The first sample from `at` on that is missing. Most recordings lack none, so whole blocks are asked at once.
std::size_t first_missing(std::span<const double> samples, std::size_t at) {
    constexpr std::size_t block = 64;
    while (at + block <= samples.size()) {
        std::size_t missing = 0;
        for (const double x : samples.subspan(at, block)) {
            missing += std::isfinite(x) ? 0U : 1U;
        }
        if (missing > 0) {
            break;
        }
        at += block;
    }
    while (at < samples.size() && std::isfinite(samples[at])) {
        ++at;
    }
    return at;
}

}  // namespace

std::vector<SampleSpan> finite_runs(std::span<const double> samples) {
    std::vector<SampleSpan> runs;
    for (std::size_t at = 0; at < samples.size();) {
        if (!std::isfinite(samples[at])) {
            ++at;
            continue;
        }
        const std::size_t end = first_missing(samples, at);
        runs.push_back({at, end});
        at = end;
    }
    return runs;
}

}  // namespace jointrom
