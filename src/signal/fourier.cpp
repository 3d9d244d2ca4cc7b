#include "fourier.hpp"

#include <unsupported/Eigen/FFT>

#include <bit>
#include <numbers>

namespace jointrom {
namespace {

using Complex = std::complex<double>;

std::size_t largest_prime_factor(std::size_t n) {
    std::size_t largest = 1;
    for (std::size_t p = 2; p * p <= n; ++p) {
        for (; n % p == 0; n /= p) {
            largest = p;
        }
    }
    return n > 1 ? n : largest;
}

/// Bluestein's algorithm: a transform of any length as a convolution with a chirp, done at a power of two (L. Bluestein
/// 1970, IEEE Trans Audio Electroacoust 18:451).
std::vector<Complex> chirp_transform(std::span<const double> samples) {
    const std::size_t n = samples.size();
    const std::size_t padded = std::bit_ceil(2 * n - 1);
    std::vector<Complex> chirp(n);
    for (std::size_t k = 0; k < n; ++k) {
        // k^2 modulo 2n, lest the angle lose digits.
        const double turns = static_cast<double>(k * k % (2 * n)) / static_cast<double>(2 * n);
        chirp[k] = std::polar(1.0, -2.0 * std::numbers::pi * turns);
    }
    std::vector<Complex> modulated(padded);
    std::vector<Complex> kernel(padded);
    for (std::size_t k = 0; k < n; ++k) {
        modulated[k] = samples[k] * chirp[k];
        kernel[k] = kernel[(padded - k) % padded] = std::conj(chirp[k]);
    }
    Eigen::FFT<double> fft;
    std::vector<Complex> product;
    std::vector<Complex> kernel_spectrum;
    fft.fwd(product, modulated);
    fft.fwd(kernel_spectrum, kernel);
    for (std::size_t k = 0; k < padded; ++k) {
        product[k] *= kernel_spectrum[k];
    }
    std::vector<Complex> result;
    fft.inv(result, product);
    result.resize(n / 2 + 1);
    for (std::size_t k = 0; k < result.size(); ++k) {
        result[k] *= chirp[k];
    }
    return result;
}

}  // namespace

std::vector<Complex> real_fourier(std::span<const double> samples) {
    // Above this factor the mixed-radix transform, whose cost grows with it, is the slower one.
    constexpr std::size_t largest_radix = 31;
    if (samples.empty()) {
        return {};
    }
    if (samples.size() == 1) {
        return {samples.front()};
    }
    if (largest_prime_factor(samples.size()) > largest_radix) {
        return chirp_transform(samples);
    }
    Eigen::FFT<double> fft;
    fft.SetFlag(Eigen::FFT<double>::HalfSpectrum);
    const std::vector<double> in(samples.begin(), samples.end());
    std::vector<Complex> out;
    fft.fwd(out, in);
    return out;
}

}  // namespace jointrom
