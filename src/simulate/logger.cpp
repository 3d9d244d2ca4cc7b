#include "simulate/logger.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

bool in_gap(const std::vector<TimeWindow>& gaps, double time_s) {
    return std::ranges::any_of(
        gaps, [&](const TimeWindow& gap) { return gap.start.value() <= time_s && time_s < gap.end.value(); });
}

void take_out(SimulatedRecording& recording, const std::vector<std::size_t>& rows) {
    const auto keep = [&](std::vector<double>& values) {
        std::vector<double> kept;
        kept.reserve(values.size() - rows.size());
        auto next = rows.begin();
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (next != rows.end() && *next == i) {
                ++next;
            } else {
                kept.push_back(values[i]);
            }
        }
        values = std::move(kept);
    };
    keep(recording.time_s);
    keep(recording.reading);
    for (SimulatedMuscle& muscle : recording.muscles) {
        keep(muscle.mv);
    }
}

}  // namespace

std::vector<double> sampling_times(const LoggerModel& logger, double end_s, RandomNumbers random) {
    const double rate_hz = logger.rate.value();
    const auto count = static_cast<std::size_t>(end_s * rate_hz + 1e-6);
    std::vector<double> time_s(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double even_s = static_cast<double>(i) / rate_hz;
        const double off_s = logger.jitter_ms > 0.0 ? logger.jitter_ms / 1000.0 * random.normal() : 0.0;
        time_s[i] = std::max(0.0, even_s + std::clamp(off_s, -0.4 / rate_hz, 0.4 / rate_hz));
    }
    return time_s;
}

void lose_samples(SimulatedRecording& recording) {
    const LoggerModel& logger = recording.logger;
    if (logger.angle_rate.is_set()) {
        const auto every = static_cast<std::size_t>(std::round(logger.rate / logger.angle_rate));
        for (std::size_t i = 0; i < recording.reading.size(); ++i) {
            recording.reading[i] = i % every == 0 ? recording.reading[i] : missing;
        }
    }
    std::vector<std::size_t> lost;
    for (std::size_t i = 0; i < recording.time_s.size(); ++i) {
        if (in_gap(logger.gaps, recording.time_s[i])) {
            lost.push_back(i);
        }
    }
    if (!logger.gaps_are_blank) {
        take_out(recording, lost);
        return;
    }
    for (const std::size_t i : lost) {
        recording.reading[i] = missing;
        for (SimulatedMuscle& muscle : recording.muscles) {
            muscle.mv[i] = missing;
        }
    }
}

}  // namespace jointrom
