#include <jointrom/movement/smoothness.hpp>

#include <jointrom/core/number_text.hpp>
#include <jointrom/signal/derivative.hpp>

#include <algorithm>
#include <array>
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

constexpr std::size_t reach = 4;
constexpr std::size_t block = 2 * reach + 1;

/// A sample, and its neighbours at each distance on both sides as their sum and their difference.
struct Around {
    double middle;
    std::array<double, reach> sum, difference;
};

std::vector<Around> blocks_of(std::span<const double> samples) {
    const auto at = [&](std::size_t i) { return i < samples.size() ? samples[i] : 0.0; };
    std::vector<Around> blocks;
    blocks.reserve(samples.size() / block + 1);
    for (std::size_t middle = reach; middle < samples.size() + reach; middle += block) {
        Around& around = blocks.emplace_back(Around{at(middle), {}, {}});
        for (std::size_t j = 0; j < reach; ++j) {
            const double before = at(middle - j - 1);
            const double after = at(middle + j + 1);
            around.sum[j] = after + before;
            around.difference[j] = after - before;
        }
    }
    return blocks;
}

/// Some bins of a Fourier transform side by side, as the processor computes best. Within a block the cosines and sines
/// of a distance from the middle are the same for every block, and serve both sides.
class BinGroup {
  public:
    static constexpr std::size_t size = 4;

    BinGroup(std::size_t first_bin, std::size_t transform_size) {
        for (std::size_t l = 0; l < size; ++l) {
            const double turn =
                2.0 * std::numbers::pi * static_cast<double>(first_bin + l) / static_cast<double>(transform_size);
            cosine_[0][l] = 1.0;
            cosine_[1][l] = std::cos(turn);
            sine_[1][l] = std::sin(turn);
        }
        for (std::size_t j = 1; j < block; ++j) {
            for (std::size_t l = 0; l < size; ++l) {
                cosine_[j + 1][l] = cosine_[j][l] * cosine_[1][l] - sine_[j][l] * sine_[1][l];
                sine_[j + 1][l] = sine_[j][l] * cosine_[1][l] + cosine_[j][l] * sine_[1][l];
            }
        }
    }

    [[nodiscard]] std::array<double, size> magnitudes(std::span<const Around> blocks) const {
        Lanes real{}, imaginary{};
        Lanes cosine = cosine_[reach], sine = sine_[reach];
        const Lanes step_cosine = cosine_[block], step_sine = sine_[block];
        for (const Around& around : blocks) {
            for (std::size_t l = 0; l < size; ++l) {
                double even = around.middle;
                double odd = 0.0;
                for (std::size_t j = 0; j < reach; ++j) {
                    even += around.sum[j] * cosine_[j + 1][l];
                    odd += around.difference[j] * sine_[j + 1][l];
                }
                real[l] += even * cosine[l] - odd * sine[l];
                imaginary[l] += even * sine[l] + odd * cosine[l];
                const double turned = cosine[l] * step_cosine[l] - sine[l] * step_sine[l];
                sine[l] = sine[l] * step_cosine[l] + cosine[l] * step_sine[l];
                cosine[l] = turned;
            }
        }
        std::ranges::transform(real, imaginary, real.begin(),
                               [](double re, double im) { return std::sqrt(re * re + im * im); });
        return real;
    }

  private:
    using Lanes = std::array<double, size>;
    std::array<Lanes, block + 1> cosine_{}, sine_{};  ///< of the turn over so many samples
};

/// Magnitudes of the first `bins` bins of the zero-padded transform. Only a few in a hundred bins of it are wanted, so
/// the sum is taken directly.
std::vector<double> low_magnitudes(std::span<const double> samples, std::size_t bins, std::size_t transform_size) {
    const std::vector<Around> blocks = blocks_of(samples);
    std::vector<double> magnitudes(bins);
    for (std::size_t first = 0; first < bins; first += BinGroup::size) {
        const auto found = BinGroup(first, transform_size).magnitudes(blocks);
        std::copy_n(found.begin(), std::min(BinGroup::size, bins - first),
                    magnitudes.begin() + static_cast<std::ptrdiff_t>(first));
    }
    return magnitudes;
}

}  // namespace

double spectral_arc_length(std::span<const double> speed, Hertz rate) {
    const auto step = static_cast<std::size_t>(std::max(1.0, std::floor(rate.value() / enough_rate_hz)));
    if (step > 1) {
        return spectral_arc_length(averaged_in_blocks(speed, step), Hertz(rate.value() / static_cast<double>(step)));
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
    const double width = 1.0 / static_cast<double>(last - first);
    double length = 0.0;
    for (auto m = first; m != last; ++m) {
        length += std::sqrt(width * width + (m[1] - m[0]) * (m[1] - m[0]));
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
