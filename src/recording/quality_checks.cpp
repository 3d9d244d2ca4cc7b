#include "quality_checks.hpp"

#include "column_content.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/noise_level.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace jointrom {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr std::size_t enough = 8192;  ///< samples from which a spread is judged

/// Every k-th sample, at most `enough` of them.
std::vector<double> thinned(std::span<const double> samples) {
    const std::size_t stride = samples.size() / enough + 1;
    std::vector<double> result;
    for (std::size_t i = 0; i < samples.size(); i += stride) {
        result.push_back(samples[i]);
    }
    return result;
}

std::span<const double> middle_part(std::span<const double> samples) {
    return samples.size() <= enough ? samples : samples.subspan((samples.size() - enough) / 2, enough);
}

double fast_step_of(std::span<const double> samples) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const double step = std::abs(samples[i] - samples[i - 1]);
        if (step > 0.0) {
            steps.push_back(step);
        }
    }
    if (steps.empty()) {
        return 0.0;
    }
    const auto place = steps.begin() + static_cast<std::ptrdiff_t>(19 * (steps.size() - 1) / 20);
    std::ranges::nth_element(steps, place);
    return *place;
}

/// The step into sample i, 0 where there is none.
double step_to(std::span<const double> samples, std::size_t i) {
    const double step = i > 0 && i < samples.size() ? std::abs(samples[i] - samples[i - 1]) : 0.0;
    return std::isnan(step) ? 0.0 : step;
}

/// Whether a run ends movement at speed on each side on which the recording goes on.
bool is_cut_off(std::span<const double> samples, FlatRun run, double speed) {
    const std::size_t end = run.first + run.length;
    const bool has_before = run.first >= 2;
    const bool has_after = end + 1 < samples.size();
    // The step before the one that leads to the level: the last step itself may be cut short.
    const bool fast_before = !has_before || step_to(samples, run.first - 1) >= speed;
    const bool fast_after = !has_after || step_to(samples, end + 1) >= speed;
    return (has_before || has_after) && fast_before && fast_after;
}

}  // namespace

Scale scale_of(std::span<const double> samples) {
    Scale scale{.min = infinity, .max = -infinity};
    double smallest = infinity;
    double last = std::numeric_limits<double>::quiet_NaN();
    for (const double sample : samples) {
        if (!std::isnan(sample)) {
            ++scale.count;
            scale.min = std::min(scale.min, sample);
            scale.max = std::max(scale.max, sample);
        }
        const double step = std::abs(sample - last);
        smallest = step > 0.0 ? std::min(smallest, step) : smallest;
        last = sample;
    }
    scale.resolution = std::isfinite(smallest) ? smallest : 0.0;
    scale.range = middle_range(thinned(samples));
    const double noise = noise_sd(middle_part(samples));
    scale.noise_sd = std::isnan(noise) ? 0.0 : noise;
    scale.fast_step = fast_step_of(middle_part(samples));
    return scale;
}

FlatRun longest_flat_run(std::span<const double> samples, double except) {
    FlatRun longest;
    FlatRun run;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const bool goes_on = i > 0 && samples[i] == samples[i - 1];
        run = goes_on ? FlatRun{run.first, run.length + 1} : FlatRun{i, 1};
        if (run.length > longest.length && samples[i] != except && !std::isnan(samples[i])) {
            longest = run;
        }
    }
    return longest;
}

std::optional<Saturation> find_saturation(std::span<const double> samples, const Scale& scale, double level,
                                          std::size_t held) {
    const std::size_t shortest = held * (scale.is_noisy() ? 4 : 3);
    const double speed = std::max(0.3 * scale.fast_step, 2.5 * scale.resolution);
    const std::size_t longest_elsewhere = longest_flat_run(samples, level).length;
    Saturation found{.level = level};
    for (std::size_t i = 0; i < samples.size();) {
        if (samples[i] != level) {
            ++i;
            continue;
        }
        FlatRun run{i, 0};
        while (i < samples.size() && samples[i] == level) {
            ++run.length;
            ++i;
        }
        if (run.length < shortest) {
            continue;
        }
        const bool rests_elsewhere = 2 * longest_elsewhere >= run.length;
        const bool cut = scale.is_noisy() ? level != 0.0 || is_cut_off(samples, run, speed)
                                          : !rests_elsewhere && is_cut_off(samples, run, speed);
        if (cut) {
            found.first = found.runs == 0 ? run.first : found.first;
            ++found.runs;
            found.samples += run.length;
        }
    }
    return found.runs > 0 ? std::optional(found) : std::nullopt;
}

Spikes find_spikes(std::span<const double> samples, const Scale& scale, double rate_hz) {
    constexpr double acceleration_per_range = 20000.0 / 150.0;  // per s2
    const double least = std::max({12.0 * scale.noise_sd, 8.0 * scale.resolution, 0.03 * scale.range});
    const double least_sum = acceleration_per_range * scale.range / (rate_hz * rate_hz);
    Spikes spikes;
    for (std::size_t i = 1; i + 1 < samples.size(); ++i) {
        const double from = samples[i] - samples[i - 1];
        const double to = samples[i] - samples[i + 1];
        const bool is_spike = from * to > 0.0 && std::min(std::abs(from), std::abs(to)) > least &&
                              std::abs(from + to) > least_sum &&
                              std::abs(from - to) < 0.3 * std::min(std::abs(from), std::abs(to));
        if (is_spike) {
            spikes.first = spikes.count == 0 ? i : spikes.first;
            ++spikes.count;
        }
    }
    return spikes;
}

std::optional<SuspectValue> find_missing_code(std::span<const double> samples, const Scale& scale) {
    for (const double extreme : {scale.max, scale.min}) {
        SuspectValue suspect{.value = extreme};
        double rest_min = infinity;
        double rest_max = -infinity;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            if (samples[i] == extreme) {
                suspect.first = suspect.count == 0 ? i : suspect.first;
                ++suspect.count;
            } else if (samples[i] != scale.min && samples[i] != scale.max) {
                rest_min = std::min(rest_min, samples[i]);
                rest_max = std::max(rest_max, samples[i]);
            }
        }
        const double distance = std::min(std::abs(extreme - rest_min), std::abs(extreme - rest_max));
        // Readings of a goniometer stay within a turn, so a lone step beyond them is worth half their range.
        if (suspect.count >= 2 && rest_max > rest_min && distance > 0.5 * (rest_max - rest_min)) {
            return suspect;
        }
    }
    return std::nullopt;
}

std::optional<SuspectValue> find_dropouts_to_zero(std::span<const double> samples, const Scale& scale) {
    constexpr std::size_t fewest = 3;
    const double jump = std::max({0.15 * scale.range, 3.0 * scale.fast_step, 20.0 * scale.noise_sd});
    SuspectValue suspect;
    for (std::size_t i = 1; i < samples.size();) {
        if (samples[i] != 0.0) {
            ++i;
            continue;
        }
        const std::size_t first = i;
        while (i < samples.size() && samples[i] == 0.0) {
            ++i;
        }
        if (i < samples.size() && step_to(samples, first) > jump && step_to(samples, i) > jump) {
            suspect.first = suspect.count == 0 ? first : suspect.first;
            suspect.count += i - first;
        }
    }
    return suspect.count >= fewest ? std::optional(suspect) : std::nullopt;
}

std::size_t count_full_turns(std::span<const double> samples, const Scale& scale, const std::string& unit) {
    const double turn = unit == "rad" ? 2.0 * std::numbers::pi : 360.0;
    const bool is_angle = unit == "rad" || unit == "deg" || unit.empty();
    const double least = is_angle ? turn * 300.0 / 360.0 : 0.9 * (scale.max - scale.min);
    const double most = is_angle ? turn * 420.0 / 360.0 : infinity;
    std::size_t count = 0;
    for (std::size_t i = 1; i < samples.size() && !scale.is_constant(); ++i) {
        const double step = std::abs(samples[i] - samples[i - 1]);
        // What jumps back with the next sample is a spike.
        const double back = i + 1 < samples.size() ? std::abs(samples[i + 1] - samples[i]) : 0.0;
        const double before = i > 1 ? std::abs(samples[i - 1] - samples[i - 2]) : 0.0;
        if (step >= least && step <= most && back < 0.5 * step && before < 0.5 * step) {
            ++count;
        }
    }
    return count;
}

std::string unit_doubt(std::span<const double> samples, const Scale& scale, const std::string& unit) {
    const std::string span = fmt::format("readings from {} to {}", shortest_text(scale.min), shortest_text(scale.max));
    if (unit == "rad") {
        return scale.max - scale.min > 4.0 * std::numbers::pi ? span + " rad look like degrees" : std::string();
    }
    if (unit != "deg" && !unit.empty()) {
        return {};
    }
    constexpr double largest_angle = 400.0;  // a turn, and what a sensor may read beyond it
    if (std::max(std::abs(scale.min), std::abs(scale.max)) > largest_angle) {
        return span + " look like counts of a converter, not degrees";
    }
    // A clear movement over less than six degrees, all of it near 0.
    constexpr double smallest_movement = 0.3;
    constexpr double clearly_slow = 0.05;
    const bool is_near_zero = scale.min > -6.4 && scale.max < 6.4;
    if (!is_near_zero || scale.range < smallest_movement || scale.range < 12.0 * scale.noise_sd ||
        slowness_of(middle_part(samples)).ratio > clearly_slow) {
        return {};
    }
    return span + (scale.min >= -0.5 && scale.max > 3.2 ? " look like volts, not degrees"
                                                        : " look like radians or volts, not degrees");
}

}  // namespace jointrom
