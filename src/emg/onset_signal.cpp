#include "emg/onset_signal.hpp"

#include <jointrom/emg/envelope.hpp>
#include <jointrom/signal/finite_runs.hpp>
#include <jointrom/signal/section_cascade.hpp>

#include <algorithm>
#include <limits>

namespace jointrom {
namespace {

struct OneWay {
    const Sections& band;
    Sections smoothing;
    bool is_energy;

    [[nodiscard]] std::vector<double> run(std::span<const double> samples) const {
        const std::vector<double> filtered = single_pass(samples, band);
        std::vector<double> level =
            single_pass(is_energy ? teager_kaiser_energy(filtered) : rectified(filtered), smoothing);
        for (double& value : level) {
            value = std::max(value, 0.0);
        }
        return level;
    }
};

std::vector<double> lower_of_both_ways(std::span<const double> samples, const OneWay& way) {
    constexpr std::size_t least_for_energy = 3;
    if (way.is_energy && samples.size() < least_for_energy) {
        return std::vector<double>(samples.size(), std::numeric_limits<double>::quiet_NaN());
    }
    std::vector<double> lower = way.run(samples);
    const std::vector<double> reversed(samples.rbegin(), samples.rend());
    const std::vector<double> backward = way.run(reversed);
    std::transform(lower.begin(), lower.end(), backward.rbegin(), lower.begin(),
                   [](double a, double b) { return std::min(a, b); });
    return lower;
}

}  // namespace

std::vector<double> onset_signal(const EmgSignal& signal, OnsetSignal kind) {
    if (signal.form == EmgForm::envelope) {
        return signal.envelope;
    }
    constexpr int order = 2;
    const Hertz cutoff = std::min(Hertz(50.0), 0.2 * signal.rate);
    const OneWay way{.band = signal.filter,
                     .smoothing = butterworth_lowpass(order, cutoff, signal.rate),
                     .is_energy = kind == OnsetSignal::teager_kaiser && signal.has_frequencies()};
    return map_finite_runs(signal.form == EmgForm::raw ? signal.unfiltered : signal.samples,
                           [&](std::span<const double> run) { return lower_of_both_ways(run, way); });
}

}  // namespace jointrom
