#include <jointrom/signal/finite_runs.hpp>

#include <cmath>

namespace jointrom {

std::vector<SampleSpan> finite_runs(std::span<const double> samples) {
    const auto finite = [](double x) { return std::isfinite(x); };
    std::vector<SampleSpan> runs;
    auto position = std::ranges::find_if(samples, finite);
    while (position != samples.end()) {
        const auto end = std::find_if_not(position, samples.end(), finite);
        runs.push_back(
            {static_cast<std::size_t>(position - samples.begin()), static_cast<std::size_t>(end - samples.begin())});
        position = std::find_if(end, samples.end(), finite);
    }
    return runs;
}

}  // namespace jointrom
