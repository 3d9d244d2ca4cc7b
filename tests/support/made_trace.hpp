#pragma once

/// \file
/// Angle traces with a known truth.

#include <jointrom/angle/angle_trace.hpp>

#include <cstdint>
#include <functional>
#include <vector>

namespace jointrom::test {

/// A point that an angle passes, and the minimum-jerk path that leads to it from the one before.
struct Waypoint {
    double time_s;
    double angle_deg;
};

/// Angles that go from waypoint to waypoint by minimum-jerk movements, each of which starts and ends at rest.
[[nodiscard]] std::vector<double> minimum_jerk_path(const std::vector<Waypoint>& waypoints, double rate_hz);

/// `count` repetitions between `base_deg` and `top_deg`: 1 s rest, then 1 s there, 0.5 s held, 1 s back, 0.5 s rest
/// each.
[[nodiscard]] std::vector<Waypoint> repeated(int count, double base_deg, double top_deg);

/// Samples of a function of time in s.
[[nodiscard]] std::vector<double> sampled(const std::function<double(double)>& angle_deg, double duration_s,
                                          double rate_hz);

/// Standard normal numbers, the same on every machine.
class Noise {
  public:
    explicit Noise(std::uint64_t seed) : state_(seed) {}
    [[nodiscard]] double operator()();

  private:
    std::uint64_t state_;
};

[[nodiscard]] std::vector<double> with_noise(std::vector<double> angle_deg, double sd_deg, std::uint64_t seed = 1);

/// A trace through the usual low-pass filter, whose uncertainty states the noise.
[[nodiscard]] AngleTrace filtered_trace(std::vector<double> angle_deg, double rate_hz, double noise_sd_deg,
                                        double lowpass_hz = 6.0, TraceUncertainty uncertainty = {});

[[nodiscard]] std::vector<double> negated(std::vector<double> samples);
[[nodiscard]] std::vector<double> reversed(std::vector<double> samples);

}  // namespace jointrom::test
