#include <jointrom/movement/smoothness.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/derivative.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <numbers>
#include <vector>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
constexpr double band_hz = 10.0;
constexpr double magnitude_threshold = 0.05;
constexpr unsigned padding_doublings = 4;
constexpr std::size_t least_samples = 10;
constexpr double enough_rate_hz = 1000.0;

std::vector<double> averaged_in_blocks(std::span<const double> samples, std::size_t block) {
    std::vector<double> means;
    means.reserve(samples.size() / block);
    for (std::size_t first = 0; first + block <= samples.size(); first += block) {
        double sum = 0.0;
        for (const double x : samples.subspan(first, block)) {
            sum += x;
        }
        means.push_back(sum / static_cast<double>(block));
    }
    return means;
}

/// Magnitudes of the first `bins` bins of the zero-padded transform. Only a few in a hundred bins of it are wanted, so
/// the sum is taken directly, all bins side by side.
std::vector<double> low_magnitudes(std::span<const double> samples, std::size_t bins, std::size_t transform_size) {
    std::vector<double> real(bins, 0.0), imaginary(bins, 0.0);
    std::vector<double> cosine(bins, 1.0), sine(bins, 0.0);
    std::vector<double> step_cosine(bins), step_sine(bins);
    for (std::size_t k = 0; k < bins; ++k) {
        const double step = 2.0 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(transform_size);
        step_cosine[k] = std::cos(step);
        step_sine[k] = std::sin(step);
    }
    for (const double x : samples) {
        for (std::size_t k = 0; k < bins; ++k) {
            real[k] += x * cosine[k];
            imaginary[k] += x * sine[k];
            const double turned = cosine[k] * step_cosine[k] - sine[k] * step_sine[k];
            sine[k] = sine[k] * step_cosine[k] + cosine[k] * step_sine[k];
            cosine[k] = turned;
        }
    }
    std::transform(real.begin(), real.end(), imaginary.begin(), real.begin(),
                   [](double re, double im) { return std::hypot(re, im); });
    return real;
}

}  // namespace

double spectral_arc_length(std::span<const double> speed, Hertz rate) {
    const auto block = static_cast<std::size_t>(std::max(1.0, std::floor(rate.value() / enough_rate_hz)));
    if (block > 1) {
        return spectral_arc_length(averaged_in_blocks(speed, block), Hertz(rate.value() / static_cast<double>(block)));
    }
    if (speed.size() < least_samples || rate.value() < 2.0 * band_hz) {
        return missing;
    }
    const std::size_t transform_size = std::bit_ceil(speed.size()) << padding_doublings;
    const double bin_hz = rate.value() / static_cast<double>(transform_size);
    const auto bins = std::min(static_cast<std::size_t>(std::floor(band_hz / bin_hz)), transform_size / 2) + 1;
    std::vector<double> magnitude = low_magnitudes(speed, bins, transform_size);
    const double largest = *std::ranges::max_element(magnitude);
    if (!(largest > 0.0)) {
        return missing;
    }
    for (double& m : magnitude) {
        m /= largest;
    }
    const auto stands_out = [](double m) { return m >= magnitude_threshold; };
    const auto first = std::find_if(magnitude.begin(), magnitude.end(), stands_out);
    const auto last = std::find_if(magnitude.rbegin(), magnitude.rend(), stands_out).base() - 1;
    const double step = 1.0 / static_cast<double>(last - first);
    double length = 0.0;
    for (auto m = first; m != last; ++m) {
        length += std::hypot(step, m[1] - m[0]);
    }
    return -length;
}

double log_dimensionless_jerk(std::span<const double> speed, Hertz rate) {
    if (speed.size() < least_samples) {
        return missing;
    }
    const auto acceleration = first_derivative(speed, rate, EndDifference::second_order);
    const auto jerk = first_derivative(acceleration, rate, EndDifference::second_order);
    double integral = 0.0;
    for (std::size_t i = 1; i < jerk.size(); ++i) {
        integral += (jerk[i - 1] * jerk[i - 1] + jerk[i] * jerk[i]) / 2.0 / rate.value();
    }
    const auto [low, high] = std::ranges::minmax(speed);
    const double peak = std::max(-low, high);
    const double duration_s = static_cast<double>(speed.size() - 1) / rate.value();
    return integral > 0.0 ? -std::log(std::pow(duration_s, 3) / (peak * peak) * integral) : missing;
}

Smoothness movement_smoothness(const AngleTrace& trace, SampleSpan movement) {
    if (smoothness_obstacle(trace)) {
        return {};
    }
    std::vector<double> speed(movement.size());
    std::ranges::transform(slice(trace.velocity_deg_s(), movement), speed.begin(),
                           [](double v) { return std::abs(v); });
    return {spectral_arc_length(speed, trace.rate()), log_dimensionless_jerk(speed, trace.rate())};
}

std::optional<std::string> smoothness_obstacle(const AngleTrace& trace) {
    if (trace.rate().value() >= 2.0 * band_hz) {
        return std::nullopt;
    }
    return "the sampling rate of " + fixed_text(trace.rate().value(), 1) + " Hz is below the " +
           fixed_text(2.0 * band_hz, 0) + " Hz that smoothness needs";
}

}  // namespace jointrom
