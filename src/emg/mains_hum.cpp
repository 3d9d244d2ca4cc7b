#include <jointrom/emg/mains_hum.hpp>

#include "emg/enough_segments.hpp"
#include "emg/longest_run.hpp"

#include <jointrom/stats/robust.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double line_half_width_hz = 1.0;
constexpr double least_excess_db = 10.0;

/// How far the density at a line stands above its surroundings, in dB; negative infinity where nothing can be told.
double excess_db_at(const SegmentDensities& seconds, double line_hz) {
    constexpr double skirt_hz = 2.5;  // the window's own width at 1 Hz resolution
    constexpr double surroundings_hz = 10.0;
    double peak = 0.0;
    std::vector<double> around;
    for (std::size_t k = 1; k < seconds.mean().values.size(); ++k) {
        const double distance = std::abs(seconds.mean().frequency_hz[k] - line_hz);
        if (distance <= line_half_width_hz) {
            peak = std::max(peak, seconds.median(k));
        } else if (distance > skirt_hz && distance <= surroundings_hz) {
            around.push_back(seconds.median(k));
        }
    }
    const double level = around.empty() ? 0.0 : median(around);
    return level > 0.0 && peak > 0.0 ? 10.0 * std::log10(peak / level) : -std::numeric_limits<double>::infinity();
}

double power_near(const Spectrum& density, const std::vector<Hertz>& lines) {
    double sum = 0.0;
    for (std::size_t k = 0; k < density.values.size(); ++k) {
        const bool is_near = std::ranges::any_of(lines, [&](Hertz line) {
            return std::abs(density.frequency_hz[k] - line.value()) <= 2.0 * line_half_width_hz;
        });
        sum += is_near ? density.values[k] : 0.0;
    }
    return sum * density.frequency_hz[1];
}

std::optional<MainsHum> hum_of(const SegmentDensities& seconds, Hertz rate, Hertz mains) {
    constexpr int harmonics = 5;
    MainsHum hum{.mains = mains, .lines = {}, .excess_db = 0.0, .share = 0.0};
    for (int k = 1; k <= harmonics; ++k) {
        const Hertz line = alias_of(static_cast<double>(k) * mains, rate);
        const bool can_be_told = line.value() >= 5.0 && line.value() <= 0.5 * rate.value() - 2.0;
        const double excess_db = can_be_told ? excess_db_at(seconds, line.value()) : 0.0;
        if (excess_db > least_excess_db) {
            hum.excess_db = k == 1 ? excess_db : hum.excess_db;
            if (std::ranges::find(hum.lines, line) == hum.lines.end()) {
                hum.lines.push_back(line);
            }
        } else if (k == 1) {
            return std::nullopt;
        }
    }
    hum.share = power_near(seconds.mean(), hum.lines) / total_power(seconds.mean());
    return hum;
}

}  // namespace

Hertz alias_of(Hertz frequency, Hertz rate) {
    return Hertz(std::abs(frequency.value() - rate.value() * std::round(frequency / rate)));
}

SegmentDensities densities_of_seconds(std::span<const double> samples, Hertz rate) {
    constexpr std::size_t fewest_samples = 8;
    const std::span<const double> run = longest_run(samples);
    const auto second = static_cast<std::size_t>(std::round(rate.value()));
    if (second < fewest_samples || run.size() < 2 * second) {
        return {};
    }
    return welch_segments(run, rate, {.segment = second, .most_segments = enough_segments});
}

std::optional<MainsHum> find_mains_hum(const SegmentDensities& seconds, Hertz rate, Hertz mains) {
    if (seconds.mean().values.empty()) {
        return std::nullopt;
    }
    if (mains.is_set()) {
        return hum_of(seconds, rate, mains);
    }
    auto fifty = hum_of(seconds, rate, Hertz(50.0));
    auto sixty = hum_of(seconds, rate, Hertz(60.0));
    const bool is_sixty = sixty && (!fifty || sixty->excess_db > fifty->excess_db);
    return is_sixty ? std::move(sixty) : std::move(fifty);
}

}  // namespace jointrom
