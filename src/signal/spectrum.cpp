#include <jointrom/signal/spectrum.hpp>

#include "fourier.hpp"

#include <jointrom/signal/order_statistic.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <numbers>
#include <numeric>

namespace jointrom {
namespace {

using Samples = std::span<const double>;

std::vector<double> taper_weights(Taper taper, std::size_t count) {
    std::vector<double> weights(count, 1.0);
    if (taper == Taper::hann && count > 1) {
        for (std::size_t i = 0; i < count; ++i) {
            const double turn = static_cast<double>(i) / static_cast<double>(count);
            weights[i] = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * turn);
        }
    }
    return weights;
}

std::vector<double> bin_frequencies(std::size_t length, Hertz rate) {
    std::vector<double> frequency_hz(length / 2 + 1);
    for (std::size_t k = 0; k < frequency_hz.size(); ++k) {
        frequency_hz[k] = static_cast<double>(k) * rate.value() / static_cast<double>(length);
    }
    return frequency_hz;
}

/// Squared magnitudes of the tapered segments whose starts lie `step` apart, handed to `use` one segment at a time.
template <typename Use>
void each_segment(Samples samples, std::size_t step, const std::vector<double>& weights, Use use) {
    assert(std::ranges::none_of(samples, [](double x) { return std::isnan(x); }));
    const std::size_t segment = weights.size();
    std::vector<double> tapered(segment);
    std::vector<double> squares(segment / 2 + 1);
    RealFourier fourier(segment);
    for (std::size_t start = 0; start + segment <= samples.size(); start += step) {
        const Samples part = samples.subspan(start, segment);
        const double mean = std::accumulate(part.begin(), part.end(), 0.0) / static_cast<double>(segment);
        std::ranges::transform(part, weights, tapered.begin(), [&](double x, double w) { return w * (x - mean); });
        std::ranges::transform(fourier.transform(tapered), squares.begin(),
                               [](std::complex<double> bin) { return std::norm(bin); });
        use(squares);
    }
}

/// What makes one-sided densities of squared magnitudes, for each bin.
std::vector<double> density_scale(const std::vector<double>& weights, Hertz rate) {
    const std::size_t segment = weights.size();
    const double scale =
        1.0 / (rate.value() * std::inner_product(weights.begin(), weights.end(), weights.begin(), 0.0));
    std::vector<double> scales(segment / 2 + 1);
    for (std::size_t k = 0; k < scales.size(); ++k) {
        // The bins at 0 Hz and at half the rate have no mirror image to add.
        scales[k] = k == 0 || 2 * k == segment ? scale : 2.0 * scale;
    }
    return scales;
}

/// The density from the sums of squared magnitudes over all segments.
Spectrum mean_density(std::vector<double> sums, double segments, const std::vector<double>& weights, Hertz rate) {
    const std::vector<double> scale = density_scale(weights, rate);
    std::ranges::transform(sums, scale, sums.begin(), [=](double sum, double s) { return sum / segments * s; });
    return {bin_frequencies(weights.size(), rate), std::move(sums)};
}

Spectrum mean_density(Samples samples, std::size_t step, const std::vector<double>& weights, Hertz rate) {
    std::vector<double> sums(weights.size() / 2 + 1);
    double segments = 0.0;
    each_segment(samples, step, weights, [&](const std::vector<double>& squares) {
        std::ranges::transform(sums, squares, sums.begin(), std::plus());
        segments += 1.0;
    });
    return mean_density(std::move(sums), segments, weights, rate);
}

/// How far apart segments start: half their length, or so far that there are not too many.
std::size_t step_between(std::size_t segment, std::size_t samples, std::size_t most_segments) {
    const std::size_t half = std::max<std::size_t>(1, segment - segment / 2);
    return std::max(half, (samples - segment) / most_segments + 1);
}

}  // namespace

Spectrum welch(Samples samples, Hertz rate, WelchOptions options) {
    assert(options.segment >= 2 && options.most_segments >= 1);
    if (samples.empty()) {
        return {};
    }
    const std::vector<double> weights = taper_weights(options.taper, std::min(options.segment, samples.size()));
    return mean_density(samples, step_between(weights.size(), samples.size(), options.most_segments), weights, rate);
}

SegmentDensities welch_segments(Samples samples, Hertz rate, WelchOptions options) {
    assert(options.segment >= 2 && options.most_segments >= 1);
    SegmentDensities result;
    if (samples.empty()) {
        return result;
    }
    const std::vector<double> weights = taper_weights(options.taper, std::min(options.segment, samples.size()));
    std::vector<double> sums(weights.size() / 2 + 1);
    each_segment(samples, step_between(weights.size(), samples.size(), options.most_segments), weights,
                 [&](const std::vector<double>& squares) {
                     std::ranges::transform(sums, squares, sums.begin(), std::plus());
                     result.squares_.insert(result.squares_.end(), squares.begin(), squares.end());
                 });
    const double segments = static_cast<double>(result.squares_.size() / sums.size());
    result.scale_ = density_scale(weights, rate);
    result.mean_ = mean_density(std::move(sums), segments, weights, rate);
    return result;
}

double SegmentDensities::median(std::size_t bin) const {
    assert(bin < scale_.size());
    std::vector<double> values;
    values.reserve(squares_.size() / scale_.size());
    for (std::size_t i = bin; i < squares_.size(); i += scale_.size()) {
        values.push_back(squares_[i]);
    }
    const RankedValue middle = select_rank(values, values.size() / 2);
    return (values.size() % 2 == 1 ? middle.at : 0.5 * (middle.before + middle.at)) * scale_[bin];
}

Spectrum periodogram(Samples samples, Hertz rate, Taper taper) {
    return samples.empty() ? Spectrum{}
                           : mean_density(samples, samples.size(), taper_weights(taper, samples.size()), rate);
}

Spectrum magnitude_spectrum(Samples samples, Hertz rate, std::size_t length) {
    assert(length >= samples.size());
    std::vector<double> padded(samples.begin(), samples.end());
    padded.resize(length, 0.0);
    Spectrum spectrum;
    for (const std::complex<double> bin : real_fourier(padded)) {
        spectrum.values.push_back(std::abs(bin));
    }
    spectrum.frequency_hz = bin_frequencies(length, rate);
    spectrum.frequency_hz.resize(spectrum.values.size());
    return spectrum;
}

double total_power(const Spectrum& spectrum) {
    if (spectrum.values.size() < 2) {
        return 0.0;
    }
    return std::accumulate(spectrum.values.begin(), spectrum.values.end(), 0.0) * spectrum.frequency_hz[1];
}

Hertz mean_frequency(const Spectrum& spectrum) {
    const auto& [frequency_hz, values] = spectrum;
    const double sum = std::accumulate(values.begin(), values.end(), 0.0);
    return sum > 0.0 ? Hertz(std::inner_product(values.begin(), values.end(), frequency_hz.begin(), 0.0) / sum)
                     : Hertz();
}

Hertz median_frequency(const Spectrum& spectrum, MedianFrequency rule) {
    const auto& [frequency_hz, values] = spectrum;
    std::vector<double> summed(values.size());
    std::partial_sum(values.begin(), values.end(), summed.begin());
    if (summed.empty() || !(summed.back() > 0.0)) {
        return Hertz();
    }
    const double half = summed.back() / 2.0;
    const auto i = static_cast<std::size_t>(std::ranges::lower_bound(summed, half) - summed.begin());
    if (rule == MedianFrequency::at_bin || i == 0) {
        return Hertz(frequency_hz[i]);
    }
    const double share = (half - summed[i - 1]) / values[i];
    return Hertz(frequency_hz[i - 1] + share * (frequency_hz[i] - frequency_hz[i - 1]));
}

}  // namespace jointrom
