#include <jointrom/emg/lag.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <vector>

namespace jointrom {
namespace {

/// Correlation of a(i) with b(i + lag); 0 where one of them is constant.
double correlation_at(std::span<const double> a, std::span<const double> b, std::ptrdiff_t lag) {
    const auto shift = static_cast<std::size_t>(std::abs(lag));
    const std::span<const double> x = lag < 0 ? a.subspan(shift) : a.first(a.size() - shift);
    const std::span<const double> y = lag < 0 ? b.first(b.size() - shift) : b.subspan(shift);
    double count = 0.0;
    double mean_x = 0.0;
    double mean_y = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!std::isnan(x[i] + y[i])) {
            count += 1.0;
            mean_x += x[i];
            mean_y += y[i];
        }
    }
    if (count < 3.0) {
        return 0.0;
    }
    mean_x /= count;
    mean_y /= count;
    double xx = 0.0;
    double yy = 0.0;
    double xy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        if (!std::isnan(x[i] + y[i])) {
            xx += (x[i] - mean_x) * (x[i] - mean_x);
            yy += (y[i] - mean_y) * (y[i] - mean_y);
            xy += (x[i] - mean_x) * (y[i] - mean_y);
        }
    }
    constexpr double rounding = 1e-20;  // what the rounding of a mean leaves of a constant
    const bool varies = xx > rounding * count * mean_x * mean_x && yy > rounding * count * mean_y * mean_y;
    return varies ? xy / std::sqrt(xx * yy) : 0.0;
}

double strength(double correlation, LagSign sign) {
    return sign == LagSign::positive ? correlation : sign == LagSign::negative ? -correlation : std::abs(correlation);
}

}  // namespace

std::optional<Lag> find_lag(std::span<const double> a, std::span<const double> b, Hertz rate, Seconds longest,
                            LagSign sign) {
    assert(a.size() == b.size());
    const double most = std::min(std::floor(longest.value() * rate.value()), static_cast<double>(a.size() / 2));
    if (!(most >= 1.0)) {
        return std::nullopt;
    }
    const auto last = static_cast<std::ptrdiff_t>(most);
    std::vector<double> correlations;
    for (std::ptrdiff_t lag = -last; lag <= last; ++lag) {
        correlations.push_back(correlation_at(a, b, lag));
    }
    const auto best = std::ranges::max_element(
        correlations, [&](double p, double q) { return strength(p, sign) < strength(q, sign); });
    if (best == correlations.begin() || best + 1 == correlations.end() || !(strength(*best, sign) > 0.0)) {
        return std::nullopt;
    }
    const double before = best[-1];
    const double after = best[1];
    const double bend = before - 2.0 * *best + after;
    const double offset = bend != 0.0 ? 0.5 * (before - after) / bend : 0.0;
    const double lag = static_cast<double>(best - correlations.begin() - last) + offset;
    return Lag{Seconds(lag / rate.value()), *best - 0.25 * (before - after) * offset};
}

}  // namespace jointrom
