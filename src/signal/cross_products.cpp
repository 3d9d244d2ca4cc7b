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

std::vector<double> cross_products(std::span<const double> x, std::span<const double> y, std::size_t most) {
    assert(x.size() == y.size() && 2 * most <= x.size());
    constexpr std::size_t shortest = 256;
    const std::size_t size = x.size();
    // A block of x meets what lies up to `most` on either side of it in y. Longer blocks waste less, but leave the
    // cache.
    const std::size_t length = std::bit_ceil(std::max(shortest, std::min(8 * most, size + 2 * most)));
    const std::size_t block = length - 2 * most;
    RealFourier fourier(length);
    std::vector<double> part(length);
    std::vector<Complex> x_bins(length / 2 + 1);
    std::vector<Complex> sum(length / 2 + 1);
    for (std::size_t first = 0; first < size; first += block) {
        fill(part, x, first, std::min(first + block, size));
        std::ranges::copy(fourier.transform(part), x_bins.begin());
        const std::size_t before = std::min(first, most);
        std::fill_n(part.begin(), most - before, 0.0);
        fill(std::span(part).subspan(most - before), y, first - before, std::min(first + block + most, size));
        const std::span<const Complex> y_bins = fourier.transform(part);
        for (std::size_t k = 0; k < sum.size(); ++k) {
            sum[k] += std::conj(x_bins[k]) * y_bins[k];
        }
    }
    return inverse(sum, fourier, length, 2 * most + 1);
}

}  // namespace jointrom
