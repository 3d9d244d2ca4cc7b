#include <jointrom/emg/maximal_contraction.hpp>

#include "emg_reference.hpp"
#include "simulated_emg.hpp"

#include <jointrom/emg/envelope.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

EmgSignal signal_of(std::vector<double> samples, double rate_hz) {
    EmgSignal signal;
    signal.rate = Hertz(rate_hz);
    signal.samples = std::move(samples);
    return signal;
}

}  // namespace

// NumPy 1.24.2: halves by turns of 20 samples, moving means over 1000 by convolution. The plain highest mean is 48.10.
TEST_CASE("the maximum of a contraction is the reference one", "[emg][maximal_contraction]") {
    EmgSignal signal = signal_of(burst_without_offset(), 2000.0);
    CHECK_THAT(maximum_of(signal), WithinRel(reference()["maximum_reference"]["value_uV"].get<double>(), 1e-9));
    signal.samples.resize(500);
    CHECK(std::isnan(maximum_of(signal)));
}

// Of a steady normal signal with SD 1 every half second has the mean 0.797885 (closed form). The plain highest mean of
// the half seconds in 9 s is 20 % too large at 200 Hz, 40 % at 50 Hz (NumPy 1.24.2).
TEST_CASE("a maximum does not read high because the highest of many means is taken", "[emg][maximal_contraction]") {
    const double rate_hz = GENERATE(50.0, 200.0);
    CAPTURE(rate_hz);
    constexpr int recordings = 100;
    double sum = 0.0;
    for (std::uint64_t seed = 1; seed <= recordings; ++seed) {
        Noise noise(seed);
        std::vector<double> samples(static_cast<std::size_t>(9.0 * rate_hz));
        std::ranges::generate(samples, [&] { return noise(); });
        sum += maximum_of(signal_of(std::move(samples), rate_hz));
    }
    CHECK_THAT(sum / recordings, WithinRel(0.797885, 0.05));
}

TEST_CASE("the maximum of a smooth envelope is its strongest half second", "[emg][maximal_contraction]") {
    std::vector<double> envelope(400);
    for (std::size_t i = 0; i < envelope.size(); ++i) {
        envelope[i] = 1.0 + std::sin(2.0 * std::numbers::pi * static_cast<double>(i) / 400.0);
    }
    // Mean of 1 + sin over a quarter of the period about its top: 1 + sin(pi/4) / (pi/4).
    const double top = 1.0 + std::sin(std::numbers::pi / 4.0) / (std::numbers::pi / 4.0);
    CHECK_THAT(maximum_of(signal_of(envelope, 200.0)), WithinRel(top, 1e-3));
    envelope[150] = missing;
    CHECK_THAT(maximum_of(signal_of(envelope, 200.0)), WithinRel(top, 1e-2));
    CHECK(std::isnan(maximum_of(signal_of(std::vector<double>(400, missing), 200.0))));
    CHECK(std::isnan(maximum_of(signal_of({}, 200.0))));
}
