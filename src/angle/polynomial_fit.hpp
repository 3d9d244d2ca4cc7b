#pragma once

/// \file
/// Least squares with a polynomial: the calibration line, and the parabola that tests whether a line is enough.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

struct PolynomialFit {
    std::vector<double> coefficients;  ///< of x^0, x^1, ...
    std::vector<double> covariance;    ///< of the coefficients, row by row; NaN without degrees of freedom
    std::vector<double> residuals;     ///< y minus the polynomial
    double residual_sd;                ///< sqrt(sum of squared residuals / degrees_of_freedom); NaN without any
    double degrees_of_freedom;

    [[nodiscard]] double u(std::size_t i) const;
    [[nodiscard]] double covariance_of(std::size_t i, std::size_t j) const;
};

/// Ordinary least squares of y on a polynomial in x.
///
/// Method: QR of the Vandermonde matrix of (x - mean) / largest deviation, carried back to x by the binomial theorem.
/// \pre x and y of one length, finite, with more different values of x than `degree`
/// \par Accuracy 1e-9 relative or better on the certified NIST StRD sets Norris and Pontius
[[nodiscard]] PolynomialFit fit_polynomial(std::span<const double> x, std::span<const double> y, std::size_t degree);

}  // namespace jointrom
