#include <angle/polynomial_fit.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>

using namespace jointrom;

namespace {

PolynomialFit fit_of(const std::string& file, std::size_t degree) {
    const std::string path = "reference/angle/" + file;
    return fit_polynomial(test::reference_column(path, "x"), test::reference_column(path, "y"), degree);
}

}  // namespace

// Certified values of the NIST Statistical Reference Datasets (StRD), linear regression.
TEST_CASE("the line through the NIST Norris data has the certified values", "[angle][polynomial_fit]") {
    const PolynomialFit fit = fit_of("nist_norris.csv", 1);
    CHECK_THAT(fit.coefficients[0], WithinRel(-0.262323073774029, 1e-11));
    CHECK_THAT(fit.coefficients[1], WithinRel(1.00211681802045, 1e-13));
    CHECK_THAT(fit.u(0), WithinRel(0.232818234301152, 1e-11));
    CHECK_THAT(fit.u(1), WithinRel(0.429796848199937e-3, 1e-11));
    CHECK_THAT(fit.residual_sd, WithinRel(0.884796396144373, 1e-11));
    CHECK(fit.degrees_of_freedom == 34.0);
}

TEST_CASE("the parabola through the NIST Pontius data has the certified values", "[angle][polynomial_fit]") {
    const PolynomialFit fit = fit_of("nist_pontius.csv", 2);
    CHECK_THAT(fit.coefficients[0], WithinRel(0.673565789473684e-3, 1e-9));
    CHECK_THAT(fit.coefficients[1], WithinRel(0.732059160401003e-6, 1e-12));
    CHECK_THAT(fit.coefficients[2], WithinRel(-0.316081871345029e-14, 1e-9));
    CHECK_THAT(fit.u(0), WithinRel(0.107938612033077e-3, 1e-9));
    CHECK_THAT(fit.u(1), WithinRel(0.157817399981659e-9, 1e-9));
    CHECK_THAT(fit.u(2), WithinRel(0.486652849992036e-16, 1e-9));
    CHECK_THAT(fit.residual_sd, WithinRel(0.205177424076185e-3, 1e-9));
}

TEST_CASE("a parabola through three points is exact and has no scatter", "[angle][polynomial_fit]") {
    const std::vector<double> x{1.0, 2.5, 4.0}, y{2.0 + 3.0 - 1.0, 2.0 + 7.5 - 6.25, 2.0 + 12.0 - 16.0};
    const PolynomialFit fit = fit_polynomial(x, y, 2);
    CHECK_THAT(fit.coefficients[0], WithinAbs(2.0, 1e-12));
    CHECK_THAT(fit.coefficients[1], WithinAbs(3.0, 1e-12));
    CHECK_THAT(fit.coefficients[2], WithinAbs(-1.0, 1e-12));
    CHECK(std::isnan(fit.residual_sd));
    CHECK(std::isnan(fit.u(1)));
}
