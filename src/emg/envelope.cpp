#include <jointrom/emg/envelope.hpp>

#include <jointrom/signal/finite_runs.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {

std::vector<double> rectified(std::span<const double> samples) {
    std::vector<double> result(samples.size());
    std::ranges::transform(samples, result.begin(), [](double x) { return std::abs(x); });
    return result;
}

std::vector<double> linear_envelope(std::span<const double> samples, Hertz cutoff, Hertz rate, EdgeExtension edges) {
    constexpr int order = 2;
    const Sections lowpass = butterworth_lowpass(order, design_cutoff(cutoff, order, 2, rate), rate);
    std::vector<double> envelope = rectified(samples);
    change_finite_runs(envelope, [&](std::span<double> run) {
        zero_phase_in_place(run, lowpass, edges);
        std::ranges::transform(run, run.begin(), [](double value) { return std::max(value, 0.0); });
    });
    return envelope;
}

std::vector<double> teager_kaiser_energy(std::span<const double> samples) {
    const std::size_t count = samples.size();
    std::vector<double> energy(count, std::numeric_limits<double>::quiet_NaN());
    if (count < 3) {
        return energy;
    }
    for (std::size_t i = 1; i + 1 < count; ++i) {
        energy[i] = std::abs(samples[i] * samples[i] - samples[i - 1] * samples[i + 1]);
    }
    energy.front() = energy[1];
    energy.back() = energy[count - 2];
    return energy;
}

}  // namespace jointrom
