#include "emg/activity_lags.hpp"

#include <jointrom/stats/robust.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace jointrom {
namespace {

/// Half the usual time between repetitions, at most 2 s: beyond, a lag cannot be told from one of the next repetition.
Seconds longest_lag(std::span<const Repetition> repetitions) {
    constexpr double most_s = 2.0;
    std::vector<double> periods_s;
    for (std::size_t i = 1; i < repetitions.size(); ++i) {
        periods_s.push_back((repetitions[i].turn - repetitions[i - 1].turn).value());
    }
    return Seconds(periods_s.empty() ? most_s : std::min(most_s, 0.5 * median(periods_s)));
}

std::vector<double> every(std::span<const double> samples, std::size_t step) {
    std::vector<double> result;
    result.reserve(samples.size() / step + 1);
    for (std::size_t i = 0; i < samples.size(); i += step) {
        result.push_back(samples[i]);
    }
    return result;
}

}  // namespace

double envelope_at(const EmgSignal& signal, Seconds time) {
    const double place = (time - signal.start).value() * signal.rate.value();
    if (!(place >= 0.0) || place > static_cast<double>(signal.envelope.size() - 1)) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const auto before = static_cast<std::size_t>(place);
    const double part = place - static_cast<double>(before);
    return part == 0.0 ? signal.envelope[before]
                       : (1.0 - part) * signal.envelope[before] + part * signal.envelope[before + 1];
}

void measure_lags(const AngleTrace& trace, std::span<const Repetition> repetitions, MuscleActivity& muscle) {
    constexpr double enough_hz = 100.0;  // envelope and angle lie below 10 Hz
    const auto step = static_cast<std::size_t>(std::max(1.0, std::floor(trace.rate().value() / enough_hz)));
    std::vector<double> envelope;
    envelope.reserve(trace.size() / step + 1);
    for (std::size_t i = 0; i < trace.size(); i += step) {
        envelope.push_back(envelope_at(muscle.signal, trace.time(i)));
    }
    const Hertz rate(trace.rate().value() / static_cast<double>(step));
    const LagSign sign = !muscle.action                       ? LagSign::either
                         : *muscle.action == Toward::positive ? LagSign::positive
                                                              : LagSign::negative;
    const Seconds longest = longest_lag(repetitions);
    const std::vector<double> angle_deg = every(trace.angle_deg(), step);
    const std::vector<double> velocity_deg_s = every(trace.velocity_deg_s(), step);
    const std::array<std::span<const double>, 2> movement{angle_deg, velocity_deg_s};
    const auto lags = find_lags(envelope, movement, rate, longest, sign);
    muscle.angle_lag = lags[0];
    muscle.velocity_lag = lags[1];
}

}  // namespace jointrom
