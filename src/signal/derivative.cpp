#include <jointrom/signal/derivative.hpp>

#include <jointrom/signal/finite_runs.hpp>

namespace jointrom {
namespace {

using Samples = std::span<const double>;

std::vector<double> first_of_run(Samples x, double rate_hz, EndDifference ends) {
    const std::size_t n = x.size();
    std::vector<double> slope(n, std::numeric_limits<double>::quiet_NaN());
    if (n < 2) {
        return slope;
    }
    for (std::size_t i = 1; i + 1 < n; ++i) {
        slope[i] = (x[i + 1] - x[i - 1]) * (rate_hz / 2.0);
    }
    if (ends == EndDifference::second_order && n >= 3) {
        slope.front() = (-3.0 * x[0] + 4.0 * x[1] - x[2]) * (rate_hz / 2.0);
        slope.back() = (3.0 * x[n - 1] - 4.0 * x[n - 2] + x[n - 3]) * (rate_hz / 2.0);
    } else {
        slope.front() = (x[1] - x[0]) * rate_hz;
        slope.back() = (x[n - 1] - x[n - 2]) * rate_hz;
    }
    return slope;
}

std::vector<double> second_of_run(Samples x, double rate_hz, EndDifference ends) {
    const std::size_t n = x.size();
    std::vector<double> curvature(n, std::numeric_limits<double>::quiet_NaN());
    if (n < 3) {
        return curvature;
    }
    const double scale = rate_hz * rate_hz;
    for (std::size_t i = 1; i + 1 < n; ++i) {
        curvature[i] = (x[i + 1] - 2.0 * x[i] + x[i - 1]) * scale;
    }
    if (ends == EndDifference::second_order && n >= 4) {
        curvature.front() = (2.0 * x[0] - 5.0 * x[1] + 4.0 * x[2] - x[3]) * scale;
        curvature.back() = (2.0 * x[n - 1] - 5.0 * x[n - 2] + 4.0 * x[n - 3] - x[n - 4]) * scale;
    } else {
        curvature.front() = curvature[1];
        curvature.back() = curvature[n - 2];
    }
    return curvature;
}

}  // namespace

std::vector<double> first_derivative(Samples samples, Hertz rate, EndDifference ends) {
    return map_finite_runs(samples, [=](Samples run) { return first_of_run(run, rate.value(), ends); });
}

std::vector<double> second_derivative(Samples samples, Hertz rate, EndDifference ends) {
    return map_finite_runs(samples, [=](Samples run) { return second_of_run(run, rate.value(), ends); });
}

}  // namespace jointrom
