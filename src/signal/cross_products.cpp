#include <jointrom/signal/cross_products.hpp>

#include "fourier.hpp"

#include <algorithm>
#include <bit>
#include <cassert>

namespace jointrom {
namespace {

using Complex = std::complex<double>;

/// Samples from `first` to before `last` at the start of `part`, the rest of which becomes zero.
void fill(std::span<double> part, std::span<const double> samples, std::size_t first, std::size_t last) {
    const auto end = std::ranges::copy(samples.subspan(first, last - first), part.begin()).out;
    std::fill(end, part.end(), 0.0);
}

/// The first `count` samples of the real signal that has this transform, by a transform in the same direction: with the
/// sum of real and imaginary part in every bin, those of a hermitian transform stay apart.
std::vector<double> inverse(std::span<const Complex> bins, RealFourier& fourier, std::size_t length,
                            std::size_t count) {
    std::vector<double> sums(length);
    for (std::size_t k = 0; k < bins.size(); ++k) {
        sums[(length - k) % length] = bins[k].real() - bins[k].imag();
        sums[k] = bins[k].real() + bins[k].imag();
    }
    const std::span<const Complex> back = fourier.transform(sums);
    std::vector<double> result(count);
    std::ranges::transform(back.first(count), result.begin(),
                           [&](Complex bin) { return (bin.real() + bin.imag()) / static_cast<double>(length); });
    return result;
}

}  // namespace

std::vector<std::vector<double>> cross_products(std::span<const double> x, std::span<const std::span<const double>> ys,
                                                std::size_t most) {
    assert(std::ranges::all_of(ys, [&](auto y) { return y.size() == x.size(); }) && 2 * most <= x.size());
    constexpr std::size_t shortest = 256;
    const std::size_t size = x.size();
    // A block of x meets what lies up to `most` on either side of it in y. Longer blocks waste less, but leave the
    // cache.
    const std::size_t length = std::bit_ceil(std::max(shortest, std::min(8 * most, size + 2 * most)));
    const std::size_t block = length - 2 * most;
    const std::size_t bins = length / 2 + 1;
    RealFourier fourier(length);
    std::vector<double> part(length);
    std::vector<Complex> x_bins(bins);
    std::vector<std::vector<Complex>> sums(ys.size(), std::vector<Complex>(bins));
    for (std::size_t first = 0; first < size; first += block) {
        fill(part, x, first, std::min(first + block, size));
        std::ranges::copy(fourier.transform(part), x_bins.begin());
        const std::size_t before = std::min(first, most);
        for (std::size_t j = 0; j < ys.size(); ++j) {
            std::fill_n(part.begin(), most - before, 0.0);
            fill(std::span(part).subspan(most - before), ys[j], first - before, std::min(first + block + most, size));
            const std::span<const Complex> y_bins = fourier.transform(part);
            for (std::size_t k = 0; k < bins; ++k) {
                sums[j][k] += std::conj(x_bins[k]) * y_bins[k];
            }
        }
    }
    std::vector<std::vector<double>> products;
    for (const std::vector<Complex>& sum : sums) {
        products.push_back(inverse(sum, fourier, length, 2 * most + 1));
    }
    return products;
}

}  // namespace jointrom
