
#include <jointrom/movement/movement_scale.hpp>
#include <jointrom/signal/noise_level.hpp>
#include <jointrom/signal/zero_phase.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace jointrom {
namespace {

/// What the zero-phase low-pass makes of a single spike of height 1: the weights with which it averages.
std::vector<double> impulse_response(Hertz cutoff, Hertz rate) {
    const auto half = static_cast<std::size_t>(std::ceil(4.0 * rate.value() / cutoff.value()));
    std::vector<double> impulse(2 * half + 1, 0.0);
    impulse[half] = 1.0;
    // Above half the rate there is nothing left to filter.
    return 2.0 * cutoff.value() < rate.value() ? lowpass_zero_phase(impulse, cutoff, rate) : impulse;
}

double root_of_squares(std::span<const double> weights) {
    double sum = 0.0;
    for (const double w : weights) {
        sum += w * w;
    }
    return std::sqrt(sum);
}

/// What the low-pass and the differences behind it make of white noise with a standard deviation of 1.
TraceNoise noise_of_unit(Hertz cutoff, Hertz rate) {
    const double rate_hz = rate.value();
    const std::vector<double> weights = impulse_response(cutoff, rate);
    std::vector<double> wider = impulse_response(2.0 * cutoff, rate);
    wider.insert(wider.begin(), (weights.size() - wider.size()) / 2, 0.0);
    wider.resize(weights.size(), 0.0);
    std::vector<double> slope(weights.size() - 2);
    std::vector<double> bend(slope.size());
    for (std::size_t i = 0; i < slope.size(); ++i) {
        slope[i] = (weights[i + 2] - weights[i]) * rate_hz / 2.0;
        bend[i] = (weights[i + 2] - 2.0 * weights[i + 1] + weights[i]) * rate_hz * rate_hz;
    }
    for (std::size_t i = 0; i < weights.size(); ++i) {
        wider[i] -= weights[i];
    }
    return {.angle_deg = root_of_squares(weights),
            .velocity_deg_s = root_of_squares(slope),
            .acceleration_deg_s2 = root_of_squares(bend),
            .doubled_cutoff_deg = root_of_squares(wider)};
}

/// As noise_of_unit(). Recordings of a class share rate and cut-off, and several measures ask for the same trace, so
/// the last answer is kept.
TraceNoise known_noise_of_unit(Hertz cutoff, Hertz rate) {
    thread_local Hertz last_cutoff, last_rate;
    thread_local TraceNoise last;
    if (!(cutoff == last_cutoff && rate == last_rate)) {
        last = noise_of_unit(cutoff, rate);
        last_cutoff = cutoff;
        last_rate = rate;
    }
    return last;
}

}  // namespace

TraceNoise trace_noise(const AngleTrace& trace) {
    const double rate_hz = trace.rate().value();
    const double stated_deg = trace.uncertainty().noise.is_set() ? trace.uncertainty().noise.value() : 0.0;
    if (!trace.lowpass().is_set()) {
        const double seen_deg = stated_deg > 0.0 ? stated_deg : noise_sd(trace.angle_deg());
        const double noise_deg = std::isnan(seen_deg) ? 0.0 : seen_deg;
        return {.angle_deg = noise_deg,
                .velocity_deg_s = noise_deg * rate_hz / std::sqrt(2.0),
                .acceleration_deg_s2 = noise_deg * rate_hz * rate_hz * std::sqrt(6.0)};
    }
    const TraceNoise unit = known_noise_of_unit(trace.lowpass(), trace.rate());
    return {.angle_deg = stated_deg * unit.angle_deg,
            .velocity_deg_s = stated_deg * unit.velocity_deg_s,
            .acceleration_deg_s2 = stated_deg * unit.acceleration_deg_s2,
            .doubled_cutoff_deg = stated_deg * unit.doubled_cutoff_deg};
}

}  // namespace jointrom
