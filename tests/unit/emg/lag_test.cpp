#include <jointrom/emg/lag.hpp>

#include "emg_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> muscle(const char* name) {
    return reference_column("reference/emg/two_muscles.csv", name);
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

TEST_CASE("nothing to correlate gives no lag", "[emg][lag]") {
    const std::vector<double> constant(100, 0.1);
    CHECK_FALSE(find_lag({}, {}, Hertz(100.0), Seconds(0.5)));
    CHECK_FALSE(find_lag(std::vector<double>{1.0}, std::vector<double>{1.0}, Hertz(100.0), Seconds(0.5)));
    CHECK_FALSE(find_lag(constant, constant, Hertz(100.0), Seconds(0.3)));
    CHECK_FALSE(find_lag(std::vector<double>(100, missing), constant, Hertz(100.0), Seconds(0.3)));
}
