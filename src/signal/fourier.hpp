#pragma once

#include <complex>
#include <cstddef>
#include <memory>
#include <span>
#include <vector>

namespace jointrom {

/// Discrete Fourier transforms of real signals of one length; what only depends on the length is computed once.
class RealFourier {
  public:
    class Method;

    explicit RealFourier(std::size_t length);
    RealFourier(const RealFourier&) = delete;
    RealFourier& operator=(const RealFourier&) = delete;
    ~RealFourier();

    /// Bins 0 to length/2, not scaled; they last until the next call. O(n log n) for any length.
    /// \pre samples.size() is the length
    [[nodiscard]] std::span<const std::complex<double>> transform(std::span<const double> samples);

  private:
    std::size_t length_;
    std::unique_ptr<Method> method_;
};

/// The transform of one signal; empty for no samples.
[[nodiscard]] std::vector<std::complex<double>> real_fourier(std::span<const double> samples);

}  // namespace jointrom
