#include "polynomial_fit.hpp"

#include <Eigen/Dense>

#include <cassert>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

/// Turns coefficients of powers of (x - centre) / scale into coefficients of powers of x.
Eigen::MatrixXd back_to_x(Eigen::Index terms, double centre, double scale) {
    Eigen::MatrixXd result = Eigen::MatrixXd::Zero(terms, terms);
    result(0, 0) = 1.0;
    for (Eigen::Index power = 1; power < terms; ++power) {
        for (Eigen::Index k = 0; k <= power; ++k) {
            const double times_x = k > 0 ? result(k - 1, power - 1) : 0.0;
            result(k, power) = (times_x - centre * result(k, power - 1)) / scale;
        }
    }
    return result;
}

}  // namespace

double PolynomialFit::u(std::size_t i) const {
    return std::sqrt(covariance_of(i, i));
}

double PolynomialFit::covariance_of(std::size_t i, std::size_t j) const {
    return covariance[i * coefficients.size() + j];
}

PolynomialFit fit_polynomial(std::span<const double> x, std::span<const double> y, std::size_t degree) {
    assert(x.size() == y.size() && x.size() > degree);
    const auto count = static_cast<Eigen::Index>(x.size());
    const auto terms = static_cast<Eigen::Index>(degree) + 1;
    const Eigen::Map<const Eigen::VectorXd> xs(x.data(), count), ys(y.data(), count);
    const double centre = xs.mean();
    const double scale = (xs.array() - centre).abs().maxCoeff();
    assert(scale > 0.0);
    const Eigen::VectorXd z = (xs.array() - centre) / scale;
    Eigen::MatrixXd powers = Eigen::MatrixXd::Ones(count, terms);
    for (Eigen::Index k = 1; k < terms; ++k) {
        powers.col(k) = powers.col(k - 1).cwiseProduct(z);
    }
    const Eigen::HouseholderQR<Eigen::MatrixXd> qr(powers);
    const Eigen::VectorXd scaled = qr.solve(ys);
    const Eigen::VectorXd residuals = ys - powers * scaled;
    const auto dof = static_cast<double>(count - terms);
    const double variance = dof > 0.0 ? residuals.squaredNorm() / dof : std::numeric_limits<double>::quiet_NaN();

    const Eigen::MatrixXd to_x = back_to_x(terms, centre, scale);
    const Eigen::MatrixXd r = qr.matrixQR().topRows(terms).triangularView<Eigen::Upper>();
    const Eigen::MatrixXd half = to_x * r.triangularView<Eigen::Upper>().solve(Eigen::MatrixXd::Identity(terms, terms));
    const Eigen::MatrixXd covariance = variance * half * half.transpose();
    const Eigen::VectorXd coefficients = to_x * scaled;
    return {.coefficients = {coefficients.begin(), coefficients.end()},
            .covariance = {covariance.reshaped().begin(), covariance.reshaped().end()},
            .residuals = {residuals.begin(), residuals.end()},
            .residual_sd = std::sqrt(variance),
            .degrees_of_freedom = dof};
}

}  // namespace jointrom
