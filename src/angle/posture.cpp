#include <jointrom/angle/posture.hpp>

#include <jointrom/signal/finite_runs.hpp>
#include <jointrom/signal/moving_window.hpp>
#include <jointrom/signal/noise_level.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double averaging_s = 0.125;

struct Line {
    double mean = 0.0, slope = 0.0, centre = 0.0, spread = 0.0;
    std::size_t count = 0;

    [[nodiscard]] double at(std::size_t i) const { return mean + slope * (static_cast<double>(i) - centre); }
};

Line line_through(std::span<const double> samples) {
    Line line;
    double sum = 0.0, sum_i = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (std::isfinite(samples[i])) {
            sum += samples[i];
            sum_i += static_cast<double>(i);
            ++line.count;
        }
    }
    const auto n = static_cast<double>(line.count);
    line.mean = sum / n;
    line.centre = sum_i / n;
    double product = 0.0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        if (std::isfinite(samples[i])) {
            const double distance = static_cast<double>(i) - line.centre;
            line.spread += distance * distance;
            product += distance * (samples[i] - line.mean);
        }
    }
    line.slope = line.spread > 0.0 ? product / line.spread : 0.0;
    return line;
}

/// Means of at most 512 equal blocks of what is left of the samples beside the line.
std::vector<double> block_means(std::span<const double> samples, const Line& line) {
    constexpr std::size_t most_blocks = 512;
    const std::size_t block = (samples.size() + most_blocks - 1) / most_blocks;
    std::vector<double> means;
    for (std::size_t first = 0; first + block <= samples.size(); first += block) {
        double sum = 0.0, count = 0.0;
        for (std::size_t i = first; i < first + block; ++i) {
            if (std::isfinite(samples[i])) {
                sum += samples[i] - line.at(i);
                count += 1.0;
            }
        }
        if (count > 0.0) {
            means.push_back(sum / count);
        }
    }
    return means;
}

/// Variance of the mean of correlated values.
double variance_of_mean(std::span<const double> values) {
    const std::size_t n = values.size();
    const auto autocovariance = [&](std::size_t lag) {
        double sum = 0.0;
        for (std::size_t i = 0; i + lag < n; ++i) {
            sum += values[i] * values[i + lag];
        }
        return sum / static_cast<double>(n);
    };
    const double variance = autocovariance(0);
    double total = -variance;
    for (std::size_t lag = 0; lag + 1 < n; lag += 2) {
        const double pair = autocovariance(lag) + autocovariance(lag + 1);
        if (pair <= 0.0) {
            break;
        }
        total += 2.0 * pair;
    }
    return std::max(total, 0.0) / static_cast<double>(n);
}

/// Means over averaging_s, their speed, and what noise alone would make of both.
class Smoothed {
  public:
    Smoothed(std::span<const double> run, Hertz rate) : rate_hz_(rate.value()) {
        const auto window = static_cast<std::size_t>(std::max(1.0, std::round(averaging_s * rate_hz_)));
        reach_ = std::max<std::size_t>(1, (window + 1) / 2);
        whole_reach_s_ = static_cast<double>(2 * reach_) / rate_hz_;
        level_deg_ = moving_mean(run, window);
        const double noise_deg = noise_sd(run);
        if (std::isfinite(noise_deg)) {
            level_noise_deg_ = noise_deg / std::sqrt(static_cast<double>(window));
        }
    }

    [[nodiscard]] std::span<const double> level_deg() const { return level_deg_; }
    [[nodiscard]] double level_noise_deg() const { return level_noise_deg_; }

    [[nodiscard]] double speed_deg_s(std::size_t i) const {
        if (i >= reach_ && i + reach_ < level_deg_.size()) {
            return std::abs(level_deg_[i + reach_] - level_deg_[i - reach_]) / whole_reach_s_;
        }
        const std::size_t before = i - std::min(i, reach_);
        const std::size_t after = std::min(i + reach_, level_deg_.size() - 1);
        const double time_s = static_cast<double>(after - before) / rate_hz_;
        return after > before ? std::abs(level_deg_[after] - level_deg_[before]) / time_s : 0.0;
    }
    [[nodiscard]] double peak_speed_deg_s() const {
        double peak = 0.0;
        for (std::size_t i = 0; i < level_deg_.size(); ++i) {
            peak = std::max(peak, speed_deg_s(i));
        }
        return peak;
    }
    [[nodiscard]] double speed_noise_deg_s() const {
        return std::sqrt(2.0) * level_noise_deg_ * rate_hz_ / (2.0 * static_cast<double>(reach_));
    }

  private:
    double rate_hz_;
    std::size_t reach_ = 1;
    double whole_reach_s_ = 0.0;
    std::vector<double> level_deg_;
    double level_noise_deg_ = 0.0;
};

double still_speed_deg_s(const Smoothed& smooth, const StillnessRule& rule) {
    const double peak = smooth.peak_speed_deg_s();
    const double least = rule.speed.value();
    const double by_movement = std::clamp(rule.speed_of_peak * peak, least, 2.0 * least);
    const double by_noise = std::min(4.0 * smooth.speed_noise_deg_s(), 0.15 * peak);
    return std::max(by_movement, by_noise);
}

double level_tolerance_deg(const Smoothed& smooth, const StillnessRule& rule) {
    return rule.level.value() + 4.0 * smooth.level_noise_deg();
}

std::size_t shortest_samples(Hertz rate, const StillnessRule& rule) {
    return static_cast<std::size_t>(std::max(3.0, std::ceil(rule.shortest.value() * rate.value() - 1e-6)));
}

/// Cuts a still run where its level wanders off and adds what is long enough.
void add_postures(std::span<const double> level_deg, SampleSpan run, double tolerance_deg, std::size_t shortest,
                  std::size_t offset, std::vector<SampleSpan>& postures) {
    std::size_t first = run.first;
    double low = level_deg[first], high = low;
    for (std::size_t i = run.first; i <= run.last; ++i) {
        if (i < run.last) {
            low = std::min(low, level_deg[i]);
            high = std::max(high, level_deg[i]);
        }
        if (i == run.last || high - low > tolerance_deg) {
            if (i - first >= shortest) {
                postures.push_back({offset + first, offset + i});
            }
            first = i;
            low = high = i < run.last ? level_deg[i] : 0.0;
        }
    }
}

}  // namespace

HeldLevel held_level(std::span<const double> samples, SampleSpan span) {
    const std::span<const double> part = slice(samples, span);
    const Line line = line_through(part);
    if (line.count == 0) {
        return {span, missing, missing, missing, missing, missing};
    }
    const auto n = static_cast<double>(line.count);
    double squares = 0.0;
    for (std::size_t i = 0; i < part.size(); ++i) {
        if (std::isfinite(part[i])) {
            squares += (part[i] - line.at(i)) * (part[i] - line.at(i));
        }
    }
    HeldLevel result{.span = span, .mean = line.mean};
    result.sd = line.count > 2 ? std::sqrt(squares / (n - 2.0)) : 0.0;
    result.drift = line.slope * static_cast<double>(part.size() - 1);
    const double variance = variance_of_mean(block_means(part, line));
    result.effective_count = variance > 0.0 ? std::clamp(result.sd * result.sd / variance, 1.0, n) : n;
    result.u = std::hypot(result.sd / std::sqrt(result.effective_count), result.drift / std::sqrt(12.0));
    return result;
}

std::vector<SampleSpan> still_stretches(std::span<const double> angle_deg, Hertz rate, const StillnessRule& rule) {
    std::vector<SampleSpan> postures;
    const std::size_t shortest = shortest_samples(rate, rule);
    for (const SampleSpan piece : finite_runs(angle_deg)) {
        if (piece.size() < shortest) {
            continue;
        }
        const Smoothed smooth(slice(angle_deg, piece), rate);
        const double limit_deg_s = still_speed_deg_s(smooth, rule);
        const double tolerance_deg = level_tolerance_deg(smooth, rule);
        for (std::size_t i = 0; i < piece.size();) {
            std::size_t end = i;
            while (end < piece.size() && smooth.speed_deg_s(end) <= limit_deg_s) {
                ++end;
            }
            if (end - i >= shortest) {
                add_postures(smooth.level_deg(), {i, end}, tolerance_deg, shortest, piece.first, postures);
            }
            i = end + 1;
        }
    }
    return postures;
}

bool is_still(std::span<const double> angle_deg, SampleSpan span, Hertz rate, const StillnessRule& rule) {
    double low = std::numeric_limits<double>::infinity(), high = -low, tolerance_deg = 0.0;
    for (const SampleSpan piece : finite_runs(slice(angle_deg, span))) {
        const Smoothed smooth(slice(slice(angle_deg, span), piece), rate);
        const auto [piece_low, piece_high] = std::ranges::minmax(smooth.level_deg());
        low = std::min(low, piece_low);
        high = std::max(high, piece_high);
        tolerance_deg = std::max(tolerance_deg, level_tolerance_deg(smooth, rule));
    }
    return !(high - low > tolerance_deg);
}

}  // namespace jointrom
