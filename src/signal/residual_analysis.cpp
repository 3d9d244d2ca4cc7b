#include <jointrom/signal/residual_analysis.hpp>

#include <jointrom/signal/finite_runs.hpp>

#include <cmath>

namespace jointrom {
namespace {

// Cut-offs are these multiples of a fiftieth of the highest.
constexpr int steps_to_highest = 50;
constexpr int first_step = 2;
constexpr std::size_t line_first = 28 - first_step;
constexpr std::size_t line_last = 48 - first_step;  // included
constexpr double largest_deviation = 0.05;

double rms_difference(std::span<const double> a, std::span<const double> b) {
    double sum = 0.0;
    double count = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (const double difference = a[i] - b[i]; !std::isnan(difference)) {
            sum += difference * difference;
            count += 1.0;
        }
    }
    return std::sqrt(sum / count);
}

void fit_line(ResidualAnalysis& analysis) {
    constexpr double count = line_last - line_first + 1;
    double mean_x = 0.0;
    double mean_y = 0.0;
    for (std::size_t i = line_first; i <= line_last; ++i) {
        mean_x += analysis.cutoff_hz[i] / count;
        mean_y += analysis.rms_residual[i] / count;
    }
    double sum_xy = 0.0;
    double sum_xx = 0.0;
    for (std::size_t i = line_first; i <= line_last; ++i) {
        sum_xy += (analysis.cutoff_hz[i] - mean_x) * (analysis.rms_residual[i] - mean_y);
        sum_xx += (analysis.cutoff_hz[i] - mean_x) * (analysis.cutoff_hz[i] - mean_x);
    }
    analysis.slope = sum_xy / sum_xx;
    analysis.noise_rms = mean_y - analysis.slope * mean_x;
}

bool is_straight(const ResidualAnalysis& analysis) {
    for (std::size_t i = line_first; i <= line_last; ++i) {
        const double line = analysis.noise_rms + analysis.slope * analysis.cutoff_hz[i];
        if (!(std::abs(analysis.rms_residual[i] - line) <= largest_deviation * analysis.noise_rms)) {
            return false;
        }
    }
    return true;
}

std::optional<Hertz> first_crossing(const ResidualAnalysis& analysis) {
    const auto& residual = analysis.rms_residual;
    const auto& cutoff_hz = analysis.cutoff_hz;
    for (std::size_t i = 0; i <= line_first; ++i) {
        if (residual[i] <= analysis.noise_rms) {
            if (i == 0) {
                return std::nullopt;
            }
            const double share = (residual[i - 1] - analysis.noise_rms) / (residual[i - 1] - residual[i]);
            return Hertz(cutoff_hz[i - 1] + share * (cutoff_hz[i] - cutoff_hz[i - 1]));
        }
    }
    return std::nullopt;
}

}  // namespace

ResidualAnalysis residual_analysis(std::span<const double> samples, Hertz rate, ResidualOptions options) {
    const double highest_hz = options.highest.is_set() ? options.highest.value() : std::min(25.0, rate.value() / 4.0);
    ResidualAnalysis analysis;
    for (int step = first_step; step <= steps_to_highest; ++step) {
        const double cutoff_hz = highest_hz * step / steps_to_highest;
        const std::vector<double> smooth = map_finite_runs(samples, [&](std::span<const double> run) {
            return lowpass_zero_phase(run, Hertz(cutoff_hz), rate, options.order, options.edges);
        });
        analysis.cutoff_hz.push_back(cutoff_hz);
        analysis.rms_residual.push_back(rms_difference(samples, smooth));
    }
    fit_line(analysis);
    if (is_straight(analysis)) {
        analysis.cutoff = first_crossing(analysis);
    }
    return analysis;
}

}  // namespace jointrom
