#pragma once

/// \file
/// Time derivatives of sampled signals by finite differences. Noise grows with each derivative: smooth first.

#include <jointrom/core/units.hpp>

#include <span>
#include <vector>

namespace jointrom {

/// How the derivative is taken at an end, where one neighbour is lacking.
enum class EndDifference {
    first_order,  ///< from the nearest samples: exact for a straight line (second derivative: for a parabola)
    second_order  ///< from one sample more: exact for a parabola (second derivative: for a cubic), twice as noisy
};

/// First derivative, in the unit of `samples` per second.
///
/// Method: (x(i+1) - x(i-1)) rate / 2; at the ends (x1 - x0) rate or (-3 x0 + 4 x1 - x2) rate / 2.
/// Missing samples: every piece between gaps has its own ends; a single sample between gaps gives a missing derivative.
///
/// \param rate sampling rate, above 0
/// \return     as many values as samples; pieces of two samples use first-order ends whatever is asked for
/// \par Accuracy 1e-9 relative of numpy.gradient 1.24.2, both end rules
[[nodiscard]] std::vector<double> first_derivative(std::span<const double> samples, Hertz rate,
                                                   EndDifference ends = EndDifference::first_order);

/// Second derivative, in the unit of `samples` per second squared.
///
/// Method: (x(i+1) - 2 x(i) + x(i-1)) rate^2; at the ends that of the neighbour, or (2 x0 - 5 x1 + 4 x2 - x3) rate^2.
/// Missing samples: as first_derivative(); pieces of fewer than three samples give missing values.
///
/// \param rate sampling rate, above 0
/// \return     as many values as samples; pieces of three samples use first-order ends whatever is asked for
[[nodiscard]] std::vector<double> second_derivative(std::span<const double> samples, Hertz rate,
                                                    EndDifference ends = EndDifference::first_order);

}  // namespace jointrom
