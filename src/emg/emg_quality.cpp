#include <jointrom/emg/emg_quality.hpp>

#include "emg/longest_run.hpp"

#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/moving_window.hpp>
#include <jointrom/stats/descriptive.hpp>
#include <jointrom/stats/robust.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace jointrom {
namespace {

/// Mean squares over windows of four blocks that begin one block apart.
std::vector<double> block_mean_squares(std::span<const double> samples, std::size_t block) {
    constexpr std::size_t blocks = 4;
    std::vector<double> means;
    means.reserve(samples.size() / block);
    for (std::size_t first = 0; first + block <= samples.size(); first += block) {
        const std::span<const double> part = samples.subspan(first, block);
        means.push_back(std::inner_product(part.begin(), part.end(), part.begin(), 0.0) / static_cast<double>(block));
    }
    return moving_mean(means, blocks);
}

/// Smallest step between unequal neighbours; 0 when there is none.
double resolution_of(std::span<const double> samples) {
    double smallest = std::numeric_limits<double>::infinity();
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const double step = std::abs(samples[i] - samples[i - 1]);
        smallest = step > 0.0 ? std::min(smallest, step) : smallest;
    }
    return std::isfinite(smallest) ? smallest : 0.0;
}

/// Samples at `level`, if they are many more than those just before it.
std::optional<Clipping> clipping_at(std::span<const double> samples, double level, double band, double step) {
    constexpr std::size_t fewest = 5;
    constexpr std::size_t times_more = 3;
    std::size_t at_level = 0;
    std::size_t before = 0;
    for (const double sample : samples) {
        const double distance = std::abs(sample - level);
        at_level += distance < 0.5 * step ? 1U : 0U;
        before += distance >= 0.5 * step && distance <= band ? 1U : 0U;
    }
    return at_level >= fewest && at_level >= times_more * before ? std::optional(Clipping{level, at_level})
                                                                 : std::nullopt;
}

/// Middles of the peaks of `level` above `threshold`, in values, and how many of them are narrow.
struct Peaks {
    std::vector<double> narrow;
    std::size_t all = 0;
};

Peaks peaks_above(std::span<const double> level, double threshold, double widest) {
    Peaks peaks;
    std::size_t first = 0;
    for (std::size_t i = 0; i <= level.size(); ++i) {
        const bool is_above = i < level.size() && level[i] > threshold;
        const bool was_above = i > 0 && level[i - 1] > threshold;
        if (is_above && !was_above) {
            first = i;
        } else if (!is_above && was_above) {
            ++peaks.all;
            if (static_cast<double>(i - first) <= widest) {
                peaks.narrow.push_back(0.5 * static_cast<double>(first + i));
            }
        }
    }
    return peaks;
}

std::string alias_text(Hertz rate) {
    const double fifty = alias_of(Hertz(50.0), rate).value();
    const double sixty = alias_of(Hertz(60.0), rate).value();
    return fmt::format("hum of 50 Hz mains shows at {:.4g} Hz, of 60 Hz mains at {:.4g} Hz", fifty, sixty);
}

std::string line_text(const MainsHum& hum) {
    std::string text;
    for (const Hertz line : hum.lines) {
        text += (text.empty() ? "" : ", ") + fmt::format("{:.4g}", line.value());
    }
    return text;
}

}  // namespace

std::optional<Clipping> find_clipping(std::span<const double> samples) {
    const Extremes facts = extremes(samples);
    const double step = resolution_of(samples);
    if (!(step > 0.0)) {
        return std::nullopt;
    }
    const double band = std::max(0.005 * (facts.max - facts.min), 2.5 * step);
    const auto high = clipping_at(samples, facts.max, band, step);
    const auto low = clipping_at(samples, facts.min, band, step);
    return high && (!low || high->samples >= low->samples) ? high : low;
}

double slow_power_share(const Spectrum& density) {
    constexpr double slow_hz = 10.0;
    constexpr double least_band_hz = 2.0 * slow_hz;
    if (density.values.empty() || density.frequency_hz.back() < least_band_hz) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    double slow = 0.0;
    for (std::size_t k = 0; k < density.values.size() && density.frequency_hz[k] < slow_hz; ++k) {
        slow += density.values[k];
    }
    return slow * density.frequency_hz[1] / total_power(density);
}

std::optional<HeartBeats> find_heart_beats(std::span<const double> samples, Hertz rate) {
    constexpr double least_rate_hz = 100.0;
    constexpr double window_s = 0.04;
    constexpr double widest_s = 0.15;
    constexpr double times_above = 4.0;
    constexpr std::size_t fewest = 5;
    if (rate.value() < least_rate_hz) {
        return std::nullopt;
    }
    const auto block = static_cast<std::size_t>(std::max(1.0, std::floor(0.25 * window_s * rate.value())));
    const double block_s = static_cast<double>(block) / rate.value();
    const std::vector<double> level = block_mean_squares(longest_run(samples), block);
    const Peaks peaks = peaks_above(level, times_above * times_above * median(level), widest_s / block_s);
    if (peaks.narrow.size() < fewest || 2 * peaks.narrow.size() < peaks.all + fewest) {
        return std::nullopt;
    }
    std::vector<double> intervals_s;
    for (std::size_t i = 1; i < peaks.narrow.size(); ++i) {
        intervals_s.push_back((peaks.narrow[i] - peaks.narrow[i - 1]) * block_s);
    }
    const double interval_s = median(intervals_s);
    const bool is_regular = median_absolute_deviation(intervals_s) < 0.1 * interval_s;
    if (!is_regular || interval_s < 0.4 || interval_s > 1.5) {
        return std::nullopt;
    }
    return HeartBeats{60.0 / interval_s, peaks.narrow.size()};
}

Findings emg_findings(const Channel& channel, EmgForm form, const std::optional<MainsHum>& hum,
                      const Spectrum& density) {
    constexpr double mostly_hum = 0.8;
    constexpr double mostly_slow = 0.5;
    Findings findings;
    const Hertz rate = channel.times.rate();
    const auto note = [&](std::string_view code, const std::string& text) {
        findings.emplace_back(code, fmt::format("'{}': {}", channel.name, text));
    };
    if (const auto clipping = find_clipping(channel.samples)) {
        note("emg-clipped", fmt::format("{} samples at the limit of {}{}{}", clipping->samples,
                                        shortest_text(clipping->level), channel.unit.empty() ? "" : " ", channel.unit));
    }
    if (form != EmgForm::raw) {
        return findings;
    }
    if (rate < least_emg_rate) {
        note("emg-undersampled",
             fmt::format("logged at {:.4g} Hz, so what lies above {:.4g} Hz is folded down: when and, within this "
                         "recording, how strongly the muscle worked can be told, frequencies cannot; {}",
                         rate.value(), 0.5 * rate.value(), alias_text(rate)));
    }
    if (hum && hum->share > mostly_hum) {
        note("emg-unplugged",
             fmt::format("mains hum makes {:.0f} % of the power, as with an open electrode", 100.0 * hum->share));
    } else if (hum) {
        note("mains-hum", fmt::format("hum of {:.4g} Hz mains, {:.0f} dB above its surroundings, at {} Hz",
                                      hum->mains.value(), hum->excess_db, line_text(*hum)));
    }
    if (const double slow = slow_power_share(density); slow > mostly_slow) {
        note("emg-motion-artefact", fmt::format("{:.0f} % of the power lies below 10 Hz", 100.0 * slow));
    }
    if (const auto beats = find_heart_beats(channel.samples, rate)) {
        note("emg-ecg",
             fmt::format("{} short peaks come {:.0f} times a minute, as heart beats do", beats->count, beats->per_min));
    }
    return findings;
}

}  // namespace jointrom
