#pragma once

/// \file
/// How alike two signals are at each shift of one against the other.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// For every lag from -most to most the sum of x(i) * y(i + lag) over the samples that both have; of each y in `ys`.
///
/// Method: Fourier transforms of blocks; exact but for rounding, about 1e-15 of the product of both signals' norms.
/// Missing samples: not allowed; a zero in their place adds nothing.
///
/// \return 2 * most + 1 values for each y; zeros for no samples
/// \pre every y has as many samples as x, 2 * most <= x.size()
/// \par Complexity O(samples log most)
[[nodiscard]] std::vector<std::vector<double>>
cross_products(std::span<const double> x, std::span<const std::span<const double>> ys, std::size_t most);

}  // namespace jointrom
