#include <jointrom/emg/lag.hpp>

#include <jointrom/signal/cross_products.hpp>
#include <jointrom/signal/finite_runs.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <utility>
#include <vector>

namespace jointrom {
namespace {

double mean_of(std::span<const double> samples, std::span<const SampleSpan> runs) {
    double sum = 0.0;
    double count = 0.0;
    for (const SampleSpan run : runs) {
        for (const double x : slice(samples, run)) {
            sum += x;
        }
        count += static_cast<double>(run.size());
    }
    return sum / count;
}

/// A signal around its mean, 0 where it is missing, with the sums of all samples before each.
class Centred {
  public:
    explicit Centred(std::span<const double> samples)
        : runs(finite_runs(samples)), values(samples.size()), sums_(samples.size() + 1), squares_(samples.size() + 1) {
        const double mean = mean_of(samples, runs);
        for (const SampleSpan run : runs) {
            for (std::size_t i = run.first; i < run.last; ++i) {
                values[i] = samples[i] - mean;
            }
        }
        double sum = 0.0, squares = 0.0;
        for (std::size_t i = 0; i < values.size(); ++i) {
            sums_[i + 1] = sum += values[i];
            squares_[i + 1] = squares += values[i] * values[i];
        }
        constexpr double of_sums = 1e-12;
        constexpr double of_mean = 1e-20;
        rounding_ = of_sums * squares_.back() + of_mean * static_cast<double>(values.size()) * mean * mean;
    }

    [[nodiscard]] double sum(SampleSpan span) const { return sums_[span.last] - sums_[span.first]; }
    [[nodiscard]] double squares(SampleSpan span) const { return squares_[span.last] - squares_[span.first]; }
    /// Whether a sum of squared deviations is more than what rounding leaves of a constant.
    [[nodiscard]] bool is_spread(double squared_deviations) const { return squared_deviations > rounding_; }

    std::vector<SampleSpan> runs;
    std::vector<double> values;

  private:
    std::vector<double> sums_, squares_;
    double rounding_ = 0.0;
};

struct Pairs {
    double count = 0.0;
    double x = 0.0, xx = 0.0;
    double y = 0.0, yy = 0.0;
};

/// Sums over the samples of x and y that stand beside each other when y comes `lag` later.
Pairs pairs_at(const Centred& x, const Centred& y, std::ptrdiff_t lag) {
    Pairs pairs;
    const auto in_x = [=](std::size_t place_in_y) { return static_cast<std::ptrdiff_t>(place_in_y) - lag; };
    for (auto a = x.runs.begin(), b = y.runs.begin(); a != x.runs.end() && b != y.runs.end();) {
        const auto first = std::max(static_cast<std::ptrdiff_t>(a->first), in_x(b->first));
        const auto last = std::min(static_cast<std::ptrdiff_t>(a->last), in_x(b->last));
        if (first < last) {
            const SampleSpan here{static_cast<std::size_t>(first), static_cast<std::size_t>(last)};
            const SampleSpan there{static_cast<std::size_t>(first + lag), static_cast<std::size_t>(last + lag)};
            pairs.count += static_cast<double>(here.size());
            pairs.x += x.sum(here);
            pairs.xx += x.squares(here);
            pairs.y += y.sum(there);
            pairs.yy += y.squares(there);
        }
        if (static_cast<std::ptrdiff_t>(a->last) < in_x(b->last)) {
            ++a;
        } else {
            ++b;
        }
    }
    return pairs;
}

/// Correlation of x(i) with y(i + lag) for each lag from -last to last, of their `products`; 0 where one is constant.
std::vector<double> correlations(const Centred& x, const Centred& y, std::vector<double> products, std::size_t last) {
    for (std::size_t k = 0; k < products.size(); ++k) {
        const Pairs p = pairs_at(x, y, static_cast<std::ptrdiff_t>(k) - static_cast<std::ptrdiff_t>(last));
        const double xx = p.xx - p.x * p.x / p.count;
        const double yy = p.yy - p.y * p.y / p.count;
        const double xy = products[k] - p.x * p.y / p.count;
        const bool is_defined = p.count >= 3.0 && x.is_spread(xx) && y.is_spread(yy);
        products[k] = is_defined ? xy / std::sqrt(xx * yy) : 0.0;
    }
    return products;
}

double strength(double correlation, LagSign sign) {
    return sign == LagSign::positive ? correlation : sign == LagSign::negative ? -correlation : std::abs(correlation);
}

/// Where the correlations from -last to last are strongest, between samples.
std::optional<Lag> strongest(const std::vector<double>& found, std::ptrdiff_t last, Hertz rate, LagSign sign) {
    const auto best =
        std::ranges::max_element(found, [&](double p, double q) { return strength(p, sign) < strength(q, sign); });
    if (best == found.begin() || best + 1 == found.end() || !(strength(*best, sign) > 0.0)) {
        return std::nullopt;
    }
    const double before = best[-1];
    const double after = best[1];
    const double bend = before - 2.0 * *best + after;
    const double offset = bend != 0.0 ? 0.5 * (before - after) / bend : 0.0;
    const double lag = static_cast<double>(best - found.begin() - last) + offset;
    return Lag{Seconds(lag / rate.value()), *best - 0.25 * (before - after) * offset};
}

}  // namespace

std::vector<std::optional<Lag>> find_lags(std::span<const double> a, std::span<const std::span<const double>> others,
                                          Hertz rate, Seconds longest, LagSign sign) {
    const double most = std::min(std::floor(longest.value() * rate.value()), static_cast<double>(a.size() / 2));
    std::vector<std::optional<Lag>> lags(others.size());
    if (!(most >= 1.0)) {
        return lags;
    }
    const auto last = static_cast<std::size_t>(most);
    const Centred x(a);
    std::vector<Centred> centred;
    std::vector<std::span<const double>> values;
    for (const std::span<const double> b : others) {
        assert(b.size() == a.size());
        values.emplace_back(centred.emplace_back(b).values);
    }
    auto products = cross_products(x.values, values, last);
    for (std::size_t j = 0; j < others.size(); ++j) {
        const auto found = correlations(x, centred[j], std::move(products[j]), last);
        lags[j] = strongest(found, static_cast<std::ptrdiff_t>(last), rate, sign);
    }
    return lags;
}

std::optional<Lag> find_lag(std::span<const double> a, std::span<const double> b, Hertz rate, Seconds longest,
                            LagSign sign) {
    return find_lags(a, std::array{b}, rate, longest, sign).front();
}

}  // namespace jointrom
