#include <support/made_trace.hpp>

#include <jointrom/signal/zero_phase.hpp>

#include "angle/angle_trace_builder.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace jointrom::test {

std::vector<double> minimum_jerk_path(const std::vector<Waypoint>& waypoints, double rate_hz) {
    std::vector<double> angle_deg;
    std::size_t next = 1;
    for (std::size_t i = 0; static_cast<double>(i) / rate_hz <= waypoints.back().time_s + 1e-9; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        while (next + 1 < waypoints.size() && waypoints[next].time_s < t) {
            ++next;
        }
        const auto [t0, from] = waypoints[next - 1];
        const auto [t1, to] = waypoints[next];
        const double u = std::clamp((t - t0) / (t1 - t0), 0.0, 1.0);
        angle_deg.push_back(from + (to - from) * u * u * u * (10.0 + u * (-15.0 + 6.0 * u)));
    }
    return angle_deg;
}

std::vector<Waypoint> repeated(int count, double base_deg, double top_deg) {
    std::vector<Waypoint> waypoints{{0.0, base_deg}, {1.0, base_deg}};
    for (int i = 0; i < count; ++i) {
        const double start_s = 1.0 + 3.0 * i;
        waypoints.push_back({start_s + 1.0, top_deg});
        waypoints.push_back({start_s + 1.5, top_deg});
        waypoints.push_back({start_s + 2.5, base_deg});
        waypoints.push_back({start_s + 3.0, base_deg});
    }
    return waypoints;
}

std::vector<double> sampled(const std::function<double(double)>& angle_deg, double duration_s, double rate_hz) {
    std::vector<double> samples(static_cast<std::size_t>(std::lround(duration_s * rate_hz)) + 1);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] = angle_deg(static_cast<double>(i) / rate_hz);
    }
    return samples;
}

double Noise::operator()() {
    const auto uniform = [this] {  // splitmix64 (public domain, S. Vigna)
        std::uint64_t z = (state_ += 0x9e3779b97f4a7c15U);
        z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
        z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
        return (static_cast<double>((z ^ (z >> 31U)) >> 11U) + 0.5) * 0x1p-53;
    };
    const double radius = std::sqrt(-2.0 * std::log(uniform()));
    return radius * std::cos(2.0 * std::numbers::pi * uniform());
}

std::vector<double> with_noise(std::vector<double> angle_deg, double sd_deg, std::uint64_t seed) {
    Noise noise(seed);
    for (double& x : angle_deg) {
        x += sd_deg * noise();
    }
    return angle_deg;
}

AngleTrace filtered_trace(std::vector<double> angle_deg, double rate_hz, double noise_sd_deg, double lowpass_hz,
                          TraceUncertainty uncertainty) {
    AngleTraceParts parts;
    parts.rate = Hertz(rate_hz);
    parts.angle_deg = lowpass_zero_phase(angle_deg, Hertz(lowpass_hz), parts.rate);
    parts.unfiltered_deg = std::move(angle_deg);
    parts.lowpass = Hertz(lowpass_hz);
    uncertainty.noise = Degrees(noise_sd_deg);
    parts.uncertainty = uncertainty;
    return AngleTraceBuilder::build(std::move(parts));
}

std::vector<double> negated(std::vector<double> samples) {
    std::transform(samples.begin(), samples.end(), samples.begin(), std::negate<>());
    return samples;
}

std::vector<double> reversed(std::vector<double> samples) {
    std::reverse(samples.begin(), samples.end());
    return samples;
}

}  // namespace jointrom::test
