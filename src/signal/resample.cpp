#include <jointrom/signal/resample.hpp>

#include <jointrom/signal/finite_runs.hpp>

#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();
using Samples = std::span<const double>;

/// Slopes of the not-a-knot cubic spline at its knots; at least four knots.
std::vector<double> spline_slopes(Samples x, Samples y) {
    const std::size_t n = x.size();
    const auto width = [&](std::size_t i) { return x[i + 1] - x[i]; };
    const auto secant = [&](std::size_t i) { return (y[i + 1] - y[i]) / width(i); };

    // Tridiagonal equations, solved without pivoting: the second derivative is continuous at inner knots, and the first
    // two and the last two pieces are one cubic each.
    std::vector<double> diagonal(n);
    std::vector<double> slopes(n);
    const double first_two = x[2] - x[0];
    diagonal[0] = width(1);
    slopes[0] = ((width(0) + 2.0 * first_two) * width(1) * secant(0) + width(0) * width(0) * secant(1)) / first_two;
    double above = first_two;
    for (std::size_t i = 1; i + 1 < n; ++i) {
        const double factor = width(i) / diagonal[i - 1];
        diagonal[i] = 2.0 * (width(i - 1) + width(i)) - factor * above;
        slopes[i] = 3.0 * (width(i) * secant(i - 1) + width(i - 1) * secant(i)) - factor * slopes[i - 1];
        above = width(i - 1);
    }
    const double last_two = x[n - 1] - x[n - 3];
    const double factor = last_two / diagonal[n - 2];
    diagonal[n - 1] = width(n - 3) - factor * above;
    slopes[n - 1] =
        (width(n - 2) * width(n - 2) * secant(n - 3) + (2.0 * last_two + width(n - 2)) * width(n - 3) * secant(n - 2)) /
            last_two -
        factor * slopes[n - 2];

    slopes[n - 1] /= diagonal[n - 1];
    for (std::size_t i = n - 1; i-- > 0;) {
        slopes[i] = (slopes[i] - (i == 0 ? first_two : width(i - 1)) * slopes[i + 1]) / diagonal[i];
    }
    return slopes;
}

/// Slopes of the parabola through three knots, or of the line through two.
std::vector<double> few_knots_slopes(Samples x, Samples y) {
    if (x.size() == 1) {
        return {0.0};
    }
    const double first = (y[1] - y[0]) / (x[1] - x[0]);
    if (x.size() == 2) {
        return {first, first};
    }
    const double second = (y[2] - y[1]) / (x[2] - x[1]);
    const double curvature = (second - first) / (x[2] - x[0]);
    return {first - curvature * (x[1] - x[0]), first + curvature * (x[1] - x[0]), second + curvature * (x[2] - x[1])};
}

/// Finite runs, cut where the time between samples is longer than allowed.
std::vector<SampleSpan> connected_runs(Samples time_s, Samples samples, double longest_gap_s) {
    std::vector<SampleSpan> runs;
    for (SampleSpan run : finite_runs(samples)) {
        for (std::size_t i = run.first + 1; i < run.last; ++i) {
            if (time_s[i] - time_s[i - 1] > longest_gap_s) {
                runs.push_back({run.first, i});
                run.first = i;
            }
        }
        runs.push_back(run);
    }
    return runs;
}

std::vector<double> slopes_at_samples(Samples time_s, Samples samples, double longest_gap_s) {
    std::vector<double> slopes(samples.size(), missing);
    for (const SampleSpan run : connected_runs(time_s, samples, longest_gap_s)) {
        const auto method = run.size() < 4 ? few_knots_slopes : spline_slopes;
        std::ranges::copy(method(slice(time_s, run), slice(samples, run)), slopes.data() + run.first);
    }
    return slopes;
}

/// Cubic with given values and slopes at both ends of a piece, `u` of its `width` from the start.
double hermite(double y0, double y1, double slope0, double slope1, double width, double u) {
    const double secant = (y1 - y0) / width;
    const double c = (slope0 + slope1 - 2.0 * secant) / width;
    const double b = (secant - slope0) / width - c;
    return y0 + u * (slope0 + u * (b + u * c / width));
}

}  // namespace

std::vector<double> interpolate(Samples time_s, Samples samples, Samples at_s, InterpolationOptions options) {
    assert(time_s.size() == samples.size());
    const double longest_gap_s = options.longest_gap.value();
    const bool cubic = options.method == Interpolation::cubic;
    const std::vector<double> slopes =
        cubic ? slopes_at_samples(time_s, samples, longest_gap_s) : std::vector<double>();

    std::vector<double> result(at_s.size(), missing);
    std::size_t next = 0;  // first sample behind the time
    for (std::size_t k = 0; k < at_s.size(); ++k) {
        while (next < time_s.size() && time_s[next] <= at_s[k]) {
            ++next;
        }
        if (next == 0) {
            continue;
        }
        const std::size_t i = next - 1;
        const double u = at_s[k] - time_s[i];
        if (u == 0.0) {
            result[k] = samples[i];
        } else if (next < time_s.size() && time_s[next] - time_s[i] <= longest_gap_s) {
            const double width = time_s[next] - time_s[i];
            result[k] = cubic ? hermite(samples[i], samples[next], slopes[i], slopes[next], width, u)
                              : samples[i] + (samples[next] - samples[i]) / width * u;
        }
    }
    return result;
}

std::vector<double> resample_uniform(Samples time_s, Samples samples, Hertz rate, InterpolationOptions options) {
    if (time_s.empty()) {
        return {};
    }
    // A thousandth of an interval of tolerance, so that rounding of the last time does not cost its sample.
    const double intervals = std::floor((time_s.back() - time_s.front()) * rate.value() + 1e-3);
    std::vector<double> grid_s(static_cast<std::size_t>(intervals) + 1);
    for (std::size_t i = 0; i < grid_s.size(); ++i) {
        grid_s[i] = std::min(time_s.front() + static_cast<double>(i) / rate.value(), time_s.back());
    }
    return interpolate(time_s, samples, grid_s, options);
}

std::vector<double> time_normalise(Samples cycle, std::size_t count, Interpolation method) {
    assert(count >= 2);
    if (cycle.size() <= 1) {
        return std::vector<double>(count, cycle.empty() ? missing : cycle.front());
    }
    std::vector<double> position(cycle.size());
    for (std::size_t i = 0; i < position.size(); ++i) {
        position[i] = static_cast<double>(i);
    }
    std::vector<double> at(count);
    for (std::size_t j = 0; j < count; ++j) {
        at[j] = static_cast<double>(j * (cycle.size() - 1)) / static_cast<double>(count - 1);
    }
    return interpolate(position, cycle, at, {.method = method});
}

}  // namespace jointrom
