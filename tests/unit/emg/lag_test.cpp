#include <jointrom/emg/lag.hpp>

#include "emg_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> muscle(const char* name) {
    return reference_column("reference/emg/two_muscles.csv", name);
}

double pearson(const std::vector<double>& x, const std::vector<double>& y) {
    const auto n = static_cast<double>(x.size());
    const double mean_x = std::accumulate(x.begin(), x.end(), 0.0) / n;
    const double mean_y = std::accumulate(y.begin(), y.end(), 0.0) / n;
    double xx = 0.0;
    double yy = 0.0;
    double xy = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        yy += (y[i] - mean_y) * (y[i] - mean_y);
        xy += (x[i] - mean_x) * (y[i] - mean_y);
    }
    return xy / std::sqrt(xx * yy);
}

}  // namespace

// The second envelope was made 12 samples later. NumPy's estimate with 1/N at every lag gives 11.31.
TEST_CASE("the lag is not drawn towards zero", "[emg][lag]") {
    const auto lag = find_lag(muscle("agonist"), muscle("antagonist"), Hertz(1.0), Seconds(40.0)).value();
    const double with_bias = reference()["two_muscles"]["xcorr"]["lag_parabolic"];
    CHECK_THAT(lag.lag.value(), WithinAbs(12.0, 0.35));
    CHECK(std::abs(lag.lag.value() - 12.0) < std::abs(with_bias - 12.0));
    const auto back = find_lag(muscle("antagonist"), muscle("agonist"), Hertz(1.0), Seconds(40.0)).value();
    CHECK_THAT(back.lag.value(), WithinAbs(-lag.lag.value(), 1e-9));
    CHECK(lag.correlation > 0.95);
}

// A raised cosine 0.0437 s later, sampled at 100 Hz: closed form.
TEST_CASE("the lag is found between samples, in either sign", "[emg][lag]") {
    std::vector<double> a(400);
    std::vector<double> b(400);
    for (std::size_t i = 0; i < a.size(); ++i) {
        const double time_s = static_cast<double>(i) / 100.0;
        a[i] = std::cos(2.0 * std::numbers::pi * 0.5 * time_s);
        b[i] = 3.0 - 2.0 * std::cos(2.0 * std::numbers::pi * 0.5 * (time_s - 0.0437));
    }
    const auto lag = find_lag(a, b, Hertz(100.0), Seconds(0.5)).value();
    CHECK_THAT(lag.lag.value(), WithinAbs(0.0437, 5e-4));
    CHECK_THAT(lag.correlation, WithinAbs(-1.0, 1e-3));
    CHECK(find_lag(a, b, Hertz(100.0), Seconds(0.5), LagSign::negative).has_value());
    CHECK_FALSE(find_lag(a, b, Hertz(100.0), Seconds(0.5), LagSign::positive));
    a[17] = b[300] = missing;
    CHECK_THAT(find_lag(a, b, Hertz(100.0), Seconds(0.5)).value().lag.value(), WithinAbs(0.0437, 5e-4));
}

// Pearson's correlation of the pairs, summed as it is defined.
TEST_CASE("pairs with a missing sample are left out at every lag", "[emg][lag]") {
    std::vector<double> a = muscle("agonist");
    std::vector<double> b = muscle("antagonist");
    for (const std::size_t i : {0U, 1U, 30U, 31U, 32U, 33U, 70U}) {
        a[i] = missing;
    }
    std::fill(b.begin() + 50, b.begin() + 58, missing);
    b.back() = missing;
    const std::vector<double> raised = [&] {
        std::vector<double> result = a;
        std::ranges::for_each(result, [](double& x) { x = 1000.0 + 3.0 * x; });
        return result;
    }();
    const auto lag = find_lag(raised, b, Hertz(1.0), Seconds(40.0)).value();
    const auto at = [&](std::size_t shift) {
        std::vector<double> x;
        std::vector<double> y;
        for (std::size_t i = 0; i + shift < a.size(); ++i) {
            if (!std::isnan(a[i] + b[i + shift])) {
                x.push_back(a[i]);
                y.push_back(b[i + shift]);
            }
        }
        return pearson(x, y);
    };
    const double before = at(11);
    const double best = at(12);
    const double after = at(13);
    const double offset = 0.5 * (before - after) / (before - 2.0 * best + after);
    CHECK_THAT(lag.lag.value(), WithinAbs(12.0 + offset, 1e-9));
    CHECK_THAT(lag.correlation, WithinAbs(best - 0.25 * (before - after) * offset, 1e-9));
}

TEST_CASE("nothing to correlate gives no lag", "[emg][lag]") {
    const std::vector<double> constant(100, 0.1);
    CHECK_FALSE(find_lag({}, {}, Hertz(100.0), Seconds(0.5)));
    CHECK_FALSE(find_lag(std::vector<double>{1.0}, std::vector<double>{1.0}, Hertz(100.0), Seconds(0.5)));
    CHECK_FALSE(find_lag(constant, constant, Hertz(100.0), Seconds(0.3)));
    CHECK_FALSE(find_lag(std::vector<double>(100, missing), constant, Hertz(100.0), Seconds(0.3)));
}
