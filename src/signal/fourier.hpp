#pragma once

#include <complex>
#include <span>
#include <vector>

namespace jointrom {

/// Discrete Fourier transform of real samples: bins 0 to n/2, not scaled. O(n log n) for any n.
[[nodiscard]] std::vector<std::complex<double>> real_fourier(std::span<const double> samples);

}  // namespace jointrom
