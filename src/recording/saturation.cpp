#include "saturation.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

namespace jointrom {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// By how much the movement towards a run, or away from it, would have gone beyond the run's level if it had turned
/// there evenly slowed down. \param side -1 before the run, 1 behind it
double overshoot(std::span<const double> samples, FlatRun run, const Scale& scale, int side) {
    const auto window = static_cast<std::size_t>(std::max(2.0, 0.03 * scale.rate_hz));
    const std::size_t last = run.first + run.length - 1;
    const std::size_t room = side < 0 ? run.first : samples.size() - 1 - last;
    if (room < window + 1) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    const double near = samples[side < 0 ? run.first - 1 : last + 1];
    const double far = samples[side < 0 ? run.first - 1 - window : last + 1 + window];
    const double speed = std::abs(near - far) / static_cast<double>(window);
    const double turning = std::min(static_cast<double>(run.length), std::max(3.0, 0.3 * scale.rate_hz));
    return speed * turning / 4.0;
}

bool is_cut_off(std::span<const double> samples, FlatRun run, const Scale& scale) {
    const double least = std::max({0.02 * (scale.max - scale.min), 5.0 * scale.resolution, 2.0 * scale.noise_sd});
    const double before = overshoot(samples, run, scale, -1);
    const double behind = overshoot(samples, run, scale, 1);
    // What cannot be told at an end of the recording (NaN) does not speak against it.
    return std::max(std::isnan(before) ? 0.0 : before, std::isnan(behind) ? 0.0 : behind) >= least &&
           !(before < least) && !(behind < least);
}

/// 2^n - 1, the largest number of a converter with n bits.
bool is_end_of_converter(double level) {
    double end = 255.0;
    while (end < level) {
        end = 2.0 * end + 1.0;
    }
    return level == end;
}

/// Whether the channel lies still somewhere off `level` without being constant there.
bool rests_with_noise(std::span<const double> samples, const Scale& scale, double level) {
    constexpr std::size_t long_enough = 6;
    const double close = 0.02 * (scale.max - scale.min);
    double low = infinity;
    double high = -infinity;
    std::size_t length = 0;
    for (const double sample : samples) {
        const double new_low = std::min(low, sample);
        const double new_high = std::max(high, sample);
        const bool goes_on = new_high - new_low <= close;
        low = goes_on ? new_low : sample;
        high = goes_on ? new_high : sample;
        length = goes_on ? length + 1 : 1;
        if (length >= long_enough && high > low && (level < low - close || level > high + close)) {
            return true;
        }
    }
    return false;
}

std::vector<FlatRun> flat_runs(std::span<const double> samples, double level, std::size_t shortest) {
    std::vector<FlatRun> runs;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (samples[i] != level) {
            continue;
        }
        FlatRun run{i, 0};
        while (i < samples.size() && samples[i] == level) {
            ++run.length;
            ++i;
        }
        if (run.length >= shortest) {
            runs.push_back(run);
        }
    }
    return runs;
}

}  // namespace

std::optional<Saturation> find_saturation(std::span<const double> samples, const Scale& scale, double level,
                                          std::size_t held) {
    constexpr double slow_hz = 20.0;
    if (scale.longest_run.length < 3 * held) {
        return std::nullopt;
    }
    std::vector<FlatRun> runs = flat_runs(samples, level, 3 * held);
    if (runs.empty()) {
        return std::nullopt;
    }
    const std::size_t longest_elsewhere = longest_flat_run(samples, level).length;
    const bool is_slow = scale.rate_hz < slow_hz;
    const bool may_stop_at_once = is_slow && !rests_with_noise(samples, scale, level);
    const auto is_innocent = [&](FlatRun run) {
        if (is_end_of_converter(level) ||
            (scale.is_noisy() && run.length >= 8 * held && longest_elsewhere <= 3 * held)) {
            return false;
        }
        const bool is_at_end = run.first == 0 || run.first + run.length == samples.size();
        return is_at_end || 2 * longest_elsewhere >= run.length || may_stop_at_once || !is_cut_off(samples, run, scale);
    };
    std::erase_if(runs, is_innocent);
    if (runs.empty()) {
        return std::nullopt;
    }
    Saturation found{.level = level, .runs = runs.size(), .samples = 0, .first = runs.front().first};
    for (const FlatRun& run : runs) {
        found.samples += run.length;
    }
    return found;
}

}  // namespace jointrom
