#include "emg/onset_signal.hpp"

#include <jointrom/emg/envelope.hpp>
#include <jointrom/signal/finite_runs.hpp>
#include <jointrom/signal/section_cascade.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

struct OnsetFilters {
    const Sections& band;
    Sections smoothing;
    bool is_energy;
};

void make_positive(std::vector<double>& filtered, bool is_energy) {
    if (is_energy) {
        filtered = teager_kaiser_energy(filtered);
    } else {
        std::ranges::transform(filtered, filtered.begin(), [](double x) { return std::abs(x); });
    }
}

std::vector<double> lower_of_both_ways(std::span<const double> samples, const OnsetFilters& filters) {
    constexpr std::size_t least_for_energy = 3;
    if (filters.is_energy && samples.size() < least_for_energy) {
        return std::vector<double>(samples.size(), std::numeric_limits<double>::quiet_NaN());
    }
    std::vector<double> forward(samples.begin(), samples.end());
    std::vector<double> backward(samples.rbegin(), samples.rend());
    single_passes_in_place(forward, backward, filters.band);
    make_positive(forward, filters.is_energy);
    make_positive(backward, filters.is_energy);
    single_passes_in_place(forward, backward, filters.smoothing);
    std::transform(forward.begin(), forward.end(), backward.rbegin(), forward.begin(),
                   [](double a, double b) { return std::max(std::min(a, b), 0.0); });
    return forward;
}

}  // namespace

std::vector<double> onset_signal(const EmgSignal& signal, OnsetSignal kind) {
    if (signal.form == EmgForm::envelope) {
        return signal.envelope;
    }
    constexpr int order = 2;
    const Hertz cutoff = std::min(Hertz(50.0), 0.2 * signal.rate);
    const OnsetFilters filters{.band = signal.filter,
                               .smoothing = butterworth_lowpass(order, cutoff, signal.rate),
                               .is_energy = kind == OnsetSignal::teager_kaiser && signal.has_frequencies()};
    return map_finite_runs(signal.form == EmgForm::raw ? signal.unfiltered : signal.samples,
                           [&](std::span<const double> run) { return lower_of_both_ways(run, filters); });
}

}  // namespace jointrom
