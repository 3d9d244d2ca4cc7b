#include "fourier.hpp"

#include <unsupported/Eigen/FFT>

#include <bit>
#include <cassert>
#include <numbers>

namespace jointrom {

class RealFourier::Method {
  public:
    Method() = default;
    Method(const Method&) = delete;
    Method& operator=(const Method&) = delete;
    virtual ~Method() = default;
    [[nodiscard]] virtual std::span<const std::complex<double>> transform(std::span<const double> samples) = 0;
};

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

class SingleSample : public RealFourier::Method {
  public:
    std::span<const Complex> transform(std::span<const double> samples) override {
        bin_ = samples.front();
        return {&bin_, 1};
    }

  private:
    Complex bin_;
};

class MixedRadix : public RealFourier::Method {
  public:
    explicit MixedRadix(std::size_t length) : bins_(length / 2 + 1) { fft_.SetFlag(Eigen::FFT<double>::HalfSpectrum); }

    std::span<const Complex> transform(std::span<const double> samples) override {
        fft_.fwd(bins_.data(), samples.data(), std::ssize(samples));
        return bins_;
    }

  private:
    Eigen::FFT<double> fft_;
    std::vector<Complex> bins_;
};

/// Bluestein's algorithm: a transform of any length as a convolution with a chirp, done at a power of two (L. Bluestein
/// 1970, IEEE Trans Audio Electroacoust 18:451).
class Chirp : public RealFourier::Method {
  public:
    explicit Chirp(std::size_t length) : chirp_(length), modulated_(std::bit_ceil(2 * length - 1)) {
        const std::size_t padded = modulated_.size();
        std::vector<Complex> kernel(padded);
        for (std::size_t k = 0; k < length; ++k) {
            // k^2 modulo 2n, lest the angle lose digits.
            const double turns = static_cast<double>(k * k % (2 * length)) / static_cast<double>(2 * length);
            chirp_[k] = std::polar(1.0, -2.0 * std::numbers::pi * turns);
            kernel[k] = kernel[(padded - k) % padded] = std::conj(chirp_[k]);
        }
        fft_.fwd(kernel_spectrum_, kernel);
    }

    std::span<const Complex> transform(std::span<const double> samples) override {
        for (std::size_t k = 0; k < samples.size(); ++k) {
            modulated_[k] = samples[k] * chirp_[k];
        }
        fft_.fwd(product_, modulated_);
        for (std::size_t k = 0; k < product_.size(); ++k) {
            product_[k] *= kernel_spectrum_[k];
        }
        fft_.inv(bins_, product_);
        bins_.resize(samples.size() / 2 + 1);
        for (std::size_t k = 0; k < bins_.size(); ++k) {
            bins_[k] *= chirp_[k];
        }
        return bins_;
    }

  private:
    Eigen::FFT<double> fft_;
    std::vector<Complex> chirp_;
    std::vector<Complex> kernel_spectrum_;
    std::vector<Complex> modulated_;  // and zeros
    std::vector<Complex> product_;
    std::vector<Complex> bins_;
};

std::unique_ptr<RealFourier::Method> method_for(std::size_t length) {
    // Above this factor the mixed-radix transform, whose cost grows with it, is the slower one.
    constexpr std::size_t largest_radix = 31;
    if (length == 1) {
        return std::make_unique<SingleSample>();
    }
    if (largest_prime_factor(length) > largest_radix) {
        return std::make_unique<Chirp>(length);
    }
    return std::make_unique<MixedRadix>(length);
}

}  // namespace

RealFourier::RealFourier(std::size_t length) : length_(length), method_(method_for(length)) {
    assert(length >= 1);
}

RealFourier::~RealFourier() = default;

std::span<const std::complex<double>> RealFourier::transform(std::span<const double> samples) {
    assert(samples.size() == length_);
    return method_->transform(samples);
}

std::vector<std::complex<double>> real_fourier(std::span<const double> samples) {
    if (samples.empty()) {
        return {};
    }
    RealFourier fourier(samples.size());
    const auto bins = fourier.transform(samples);
    return {bins.begin(), bins.end()};
}

}  // namespace jointrom
