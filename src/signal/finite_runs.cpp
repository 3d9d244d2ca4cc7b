#include <jointrom/signal/finite_runs.hpp>

#include <bit>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace jointrom {
namespace {

/// Whether none of the samples is missing. What is not finite has every bit of the exponent set: one more there
/// carries into the sign.
bool all_finite(std::span<const double> samples) {
    constexpr std::uint64_t sign = std::uint64_t{1} << 63U;
    constexpr std::uint64_t lowest_of_exponent = std::uint64_t{1} << 52U;
    std::uint64_t carried = 0;
    for (const double x : samples) {
        carried |= (std::bit_cast<std::uint64_t>(x) & ~sign) + lowest_of_exponent;
    }
    return (carried & sign) == 0;
}

/// The first sample from `at` on that is missing. Most recordings lack none, so whole blocks are asked at once.
std::size_t first_missing(std::span<const double> samples, std::size_t at) {
    constexpr std::size_t block = 64;
    while (at + block <= samples.size() && all_finite(samples.subspan(at, block))) {
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
