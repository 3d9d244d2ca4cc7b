#include <jointrom/signal/residual_analysis.hpp>

#include "signal_reference.hpp"

#include <jointrom/core/failure.hpp>

#include <random>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> noisy_sine(double amplitude_deg, double rate_hz, double noise_deg) {
    auto x = sine(amplitude_deg, 0.8, rate_hz, static_cast<std::size_t>(20.0 * rate_hz));
    std::mt19937 generator(314159);
    std::normal_distribution<double> noise(0.0, noise_deg);
    for (double& value : x) {
        value += noise(generator);
    }
    return x;
}

}  // namespace

// SciPy 1.10.1: sosfiltfilt with 100 samples of odd padding, numpy.polyfit.
TEST_CASE("residuals, line and choice are the reference ones", "[signal][residual_analysis]") {
    const auto expected = reference_json("reference/signal/residual_analysis.json");
    const auto analysis = residual_analysis(filter_test_signal(), Hertz(100.0), {.edges = {.pad_samples = 100}});
    CHECK(largest_difference(analysis.cutoff_hz, expected["cutoff_hz"]) < 1e-12);
    CHECK(largest_difference(analysis.rms_residual, expected["rms_residual"]) < 1e-9);
    CHECK_THAT(analysis.slope, WithinRel(expected["slope"].get<double>(), 1e-9));
    CHECK_THAT(analysis.noise_rms, WithinRel(expected["intercept"].get<double>(), 1e-9));
    REQUIRE(analysis.cutoff);
    CHECK_THAT(analysis.cutoff->value(), WithinRel(expected["chosen_hz"].get<double>(), 1e-9));
}

TEST_CASE("the noise of a moving joint is found and the movement kept", "[signal][residual_analysis]") {
    const double rate_hz = GENERATE(50.0, 200.0, 2000.0);
    INFO(rate_hz);
    const auto analysis = residual_analysis(noisy_sine(55.0, rate_hz, 0.6), Hertz(rate_hz));
    CHECK_THAT(analysis.noise_rms, WithinRel(0.6, 0.06));
    REQUIRE(analysis.cutoff);
    CHECK(analysis.cutoff->value() > 1.5);
    CHECK(analysis.cutoff->value() < 12.0);
}

TEST_CASE("no cut-off is chosen without noise, without movement or without samples", "[signal][residual_analysis]") {
    const Hertz rate(100.0);
    CHECK_FALSE(residual_analysis(sine(55.0, 0.8, 100.0, 2000), rate).cutoff);
    CHECK_FALSE(residual_analysis(std::vector<double>(2000, 12.5), rate).cutoff);
    CHECK_FALSE(residual_analysis(std::vector<double>(2000, missing), rate).cutoff);
    CHECK_FALSE(residual_analysis({}, rate).cutoff);
    CHECK_FALSE(residual_analysis(std::vector{1.0}, rate).cutoff);
    // Movement reaches into the band of the line when the cut-offs tried end too low.
    CHECK_FALSE(residual_analysis(noisy_sine(55.0, 100.0, 0.1), rate, {.highest = Hertz(1.5)}).cutoff);
}

TEST_CASE("a gap does not change the residuals much", "[signal][residual_analysis]") {
    auto x = noisy_sine(55.0, 100.0, 0.6);
    const auto whole = residual_analysis(x, Hertz(100.0));
    x[1000] = missing;
    const auto gapped = residual_analysis(x, Hertz(100.0));
    CHECK_THAT(gapped.noise_rms, WithinRel(whole.noise_rms, 0.02));
    REQUIRE(gapped.cutoff);
    CHECK_THAT(gapped.cutoff->value(), WithinAbs(whole.cutoff->value(), 0.5));
}

TEST_CASE("a highest cut-off at half the rate is refused", "[signal][residual_analysis]") {
    CHECK_THROWS_AS(residual_analysis(filter_test_signal(), Hertz(100.0), {.highest = Hertz(50.0)}), Failure);
}
