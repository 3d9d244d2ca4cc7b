#pragma once

/// \file
/// How alike two signals are at each shift of one against the other.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// For every lag from -most to most the sum of x(i) * y(i + lag) over the samples that both have.
///
/// Method: Fourier transforms of blocks; exact but for rounding, about 1e-15 of the product of both signals' norms.
/// Missing samples: not allowed; a zero in their place adds nothing.
///
/// \return 2 * most + 1 values; zeros for no samples
/// \pre x.size() == y.size(), 2 * most <= x.size()
/// \par Complexity O(samples log most)
[[nodiscard]] std::vector<double> cross_products(std::span<const double> x, std::span<const double> y,
                                                 std::size_t most);

}  // namespace jointrom
