#include "simulate/sensor.hpp"

#include "simulate/portable_math.hpp"

#include <jointrom/simulate/random_numbers.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace jointrom {
namespace {

double slipped_deg(const SensorModel& sensor, double time_s) {
    double more_deg = sensor.drift_deg_per_min * time_s / 60.0;
    for (const auto& [from_s, deg] : sensor.slips) {
        more_deg += time_s >= from_s ? deg : 0.0;
    }
    return more_deg;
}

/// The error of a sensor over the angle: sines of which none repeats within the range of a joint together with the
/// others, so that it is close to normal and errors some 20 deg apart have little to do with each other.
class Nonlinearity {
  public:
    Nonlinearity(std::uint64_t seed, double sd_deg) : amplitude_deg_(sd_deg * std::sqrt(2.0 / periods_deg.size())) {
        RandomNumbers random(seed, "non-linearity of the sensor");
        for (double& phase : phases_) {
            phase = random.uniform();
        }
    }
    [[nodiscard]] double error_deg(double angle_deg) const {
        if (amplitude_deg_ == 0.0) {
            return 0.0;
        }
        double sum = 0.0;
        for (std::size_t i = 0; i < periods_deg.size(); ++i) {
            sum += sine_of_turns(phases_[i] + angle_deg / periods_deg[i]);
        }
        return amplitude_deg_ * sum;
    }

  private:
    static constexpr std::array periods_deg{97.0, 71.0, 53.0, 41.0, 31.0, 23.0};
    double amplitude_deg_;
    std::array<double, periods_deg.size()> phases_{};
};

double limited(const SensorModel& sensor, double reading) {
    if (sensor.limits) {
        reading = std::clamp(reading, sensor.limits->first, sensor.limits->second);
    }
    if (sensor.wraps_at) {
        reading -= *sensor.wraps_at * std::floor(reading / *sensor.wraps_at);
    }
    return sensor.resolution > 0.0 ? std::round(reading / sensor.resolution) * sensor.resolution : reading;
}

}  // namespace

std::vector<double> readings(const SimulatedRecording& recording) {
    const SensorModel& sensor = recording.sensor;
    RandomNumbers noise(recording.seed, recording.plan.file + " noise");
    const double mains_hz = recording.logger.mains.value();
    const Nonlinearity nonlinearity(recording.seed, sensor.nonlinearity_deg);
    std::vector<double> reading(recording.time_s.size());
    for (std::size_t i = 0; i < reading.size(); ++i) {
        const double t = recording.time_s[i];
        const double seen_deg = recording.movement.angle_deg(t) + slipped_deg(sensor, t);
        const double angle_deg = seen_deg + nonlinearity.error_deg(seen_deg) + sensor.noise_deg * noise.normal() +
                                 (sensor.hum_deg > 0.0 ? sensor.hum_deg * sine_of_turns(mains_hz * t) : 0.0);
        reading[i] = recording.neutral_reading + recording.reading_per_deg * angle_deg;
    }
    RandomNumbers spikes(recording.seed, recording.plan.file + " spikes");
    for (std::size_t i = 0; i < sensor.spikes && !reading.empty(); ++i) {
        const auto at = static_cast<std::size_t>(spikes.uniform() * static_cast<double>(reading.size()));
        reading[at] += (spikes.uniform() < 0.5 ? -1.0 : 1.0) * sensor.spike_deg * recording.reading_per_deg;
    }
    std::optional<double> last;
    for (std::size_t i = 0; i < reading.size(); ++i) {
        reading[i] = limited(sensor, reading[i]);
        const double t = recording.time_s[i];
        if (sensor.stuck && sensor.stuck->start.value() <= t && t < sensor.stuck->end.value()) {
            last = last ? last : reading[i];
            reading[i] = *last;
        }
    }
    return reading;
}

}  // namespace jointrom
