#include <jointrom/signal/noise_level.hpp>

#include "signal_reference.hpp"

#include <random>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> with_noise(std::vector<double> x, double sd) {
    std::mt19937 generator(20240521);
    std::normal_distribution<double> noise(0.0, sd);
    for (double& value : x) {
        value += noise(generator);
    }
    return x;
}

}  // namespace

TEST_CASE("the noise of a moving joint is found at any rate", "[signal][noise_level]") {
    const double rate_hz = GENERATE(50.0, 100.0, 1000.0);
    const auto moving = sine(60.0, 0.4, rate_hz, 4000);
    CHECK_THAT(noise_sd(with_noise(moving, 0.5)), WithinRel(0.5, 0.08));
    CHECK_THAT(noise_sd(with_noise(moving, 3.1)), WithinRel(3.1, 0.08));
}

TEST_CASE("spikes, steps and gaps hardly change the noise level", "[signal][noise_level]") {
    auto x = with_noise(sine(60.0, 0.4, 100.0, 4000), 0.5);
    for (std::size_t i = 0; i < x.size(); i += 50) {
        x[i] = i % 100 == 0 ? 999.0 : missing;
    }
    for (std::size_t i = 2000; i < x.size(); ++i) {
        x[i] += 90.0;
    }
    CHECK_THAT(noise_sd(x), WithinRel(0.5, 0.12));
}

// The signal was made with noise of 0.8 deg; its 12 Hz component adds a little.
TEST_CASE("the noise of the filter test signal is what it was made with", "[signal][noise_level]") {
    CHECK_THAT(noise_sd(filter_test_signal()), WithinAbs(0.8, 0.12));
}

TEST_CASE("a parabola has no noise and few samples give none", "[signal][noise_level]") {
    std::vector<double> parabola(30);
    for (std::size_t i = 0; i < parabola.size(); ++i) {
        parabola[i] = static_cast<double>(i * i) / 4.0;
    }
    CHECK(noise_sd(parabola) == 0.0);
    CHECK(std::isnan(noise_sd(std::span(parabola).first(12))));
    CHECK(noise_sd(std::span(parabola).first(13)) == 0.0);
    CHECK(std::isnan(noise_sd({})));
    CHECK(std::isnan(noise_sd(std::vector<double>(50, missing))));
}
