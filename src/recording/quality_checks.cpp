#include "quality_checks.hpp"

#include "column_content.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/noise_level.hpp>
#include <jointrom/signal/order_statistic.hpp>

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

/// Eight stretches spread over the samples, with a missing sample between them; all samples if they are few.
std::vector<double> stretches(std::span<const double> samples) {
    constexpr std::size_t count = 8;
    constexpr std::size_t length = enough / count;
    if (samples.size() <= enough) {
        return {samples.begin(), samples.end()};
    }
    std::vector<double> result;
    for (std::size_t k = 0; k < count; ++k) {
        const auto part = samples.subspan(k * (samples.size() - length) / (count - 1), length);
        result.insert(result.end(), part.begin(), part.end());
        result.push_back(std::numeric_limits<double>::quiet_NaN());
    }
    return result;
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
    return select_rank(steps, 19 * (steps.size() - 1) / 20).at;
}

/// The step into sample i, 0 where there is none.
double step_to(std::span<const double> samples, std::size_t i) {
    const double step = i > 0 && i < samples.size() ? std::abs(samples[i] - samples[i - 1]) : 0.0;
    return std::isnan(step) ? 0.0 : step;
}

/// \pre value < extreme.next
void take_lowest(Extreme& extreme, double value, std::size_t i) {
    if (value < extreme.value) {
        extreme = {.value = value, .next = extreme.value, .count = 1, .first = i};
    } else if (value == extreme.value) {
        ++extreme.count;
    } else {
        extreme.next = value;
    }
}

}  // namespace

Scale scale_of(std::span<const double> samples, double rate_hz) {
    Scale scale;
    scale.low = {.value = infinity, .next = infinity};
    scale.high = {.value = infinity, .next = infinity};  // of the negated samples
    double smallest = infinity;
    double last = std::numeric_limits<double>::quiet_NaN();
    std::size_t run_first = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double sample = samples[i];
        if (sample == last) {
            ++scale.repeats;
            if (i - run_first + 1 > scale.longest_run.length) {
                scale.longest_run = {run_first, i - run_first + 1};
            }
        } else {
            const double step = std::abs(sample - last);
            smallest = step < smallest ? step : smallest;
            run_first = i;
            last = sample;
        }
        scale.count += std::isnan(sample) ? 0U : 1U;
        scale.zeros += sample == 0.0 ? 1U : 0U;
        if (sample < scale.low.next) {
            take_lowest(scale.low, sample, i);
        }
        if (-sample < scale.high.next) {
            take_lowest(scale.high, -sample, i);
        }
    }
    if (scale.longest_run.length == 0 && scale.count > 0) {
        scale.longest_run = {scale.low.first, 1};
    }
    scale.high.value = -scale.high.value;
    scale.high.next = -scale.high.next;
    scale.min = scale.low.value;
    scale.max = scale.high.value;
    scale.resolution = std::isfinite(smallest) ? smallest : 0.0;
    scale.rate_hz = rate_hz;
    scale.range = middle_range(thinned(samples));
    std::vector<double> parts = stretches(samples);
    scale.fast_step = fast_step_of(parts);
    // Where the reading is cut off it shows no noise.
    std::ranges::replace_if(
        parts, [&](double sample) { return sample == scale.min || sample == scale.max; },
        std::numeric_limits<double>::quiet_NaN());
    const double noise = noise_sd(parts);
    scale.noise_sd = std::isnan(noise) ? 0.0 : noise;
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

Spikes count_spikes(std::span<const double> samples, const Scale& scale) {
    constexpr double acceleration_per_range = 20000.0 / 150.0;  // per s2
    const double least = std::max({12.0 * scale.noise_sd, 8.0 * scale.resolution, 0.03 * scale.range});
    const double least_sum = acceleration_per_range * scale.range / (scale.rate_hz * scale.rate_hz);
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

std::optional<SuspectValue> find_missing_code(const Scale& scale) {
    const double spread = scale.high.next - scale.low.next;
    const double largest = std::max(std::abs(scale.high.next), std::abs(scale.low.next));
    for (const Extreme& extreme : {scale.high, scale.low}) {
        const double distance = std::abs(extreme.value - extreme.next);
        if (extreme.count >= 2 && spread > 0.0 && distance > spread && std::abs(extreme.value) >= 2.0 * largest) {
            return SuspectValue{.value = extreme.value, .count = extreme.count, .first = extreme.first};
        }
    }
    return std::nullopt;
}

std::optional<SuspectValue> find_dropouts_to_zero(std::span<const double> samples, const Scale& scale) {
    constexpr std::size_t fewest = 3;
    if (scale.zeros < fewest) {
        return std::nullopt;
    }
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
        slowness_of(stretches(samples)).ratio > clearly_slow) {
        return {};
    }
    return span + (scale.min >= -0.5 && scale.max > 3.2 ? " look like volts, not degrees"
                                                        : " look like radians or volts, not degrees");
}

}  // namespace jointrom
