#include "simulate/muscle_noise.hpp"
#include "simulate/portable_math.hpp"

#include <jointrom/signal/spectrum.hpp>
#include <jointrom/simulate/random_numbers.hpp>

#include <support/catch.hpp>

#include <array>
#include <cmath>
#include <numbers>

using namespace jointrom;

TEST_CASE("random bits are those of the published generator", "[simulate][random_numbers]") {
    // SplitMix64 with seed 1234567, as its authors' reference implementation in C gives them.
    RandomNumbers random(1234567);
    for (const std::uint64_t wanted : {6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                       4593380528125082431U, 16408922859458223821U}) {
        CHECK(random.bits() == wanted);
    }
}

TEST_CASE("portable functions agree with the C library's", "[simulate][random_numbers]") {
    for (double x = 1e-12; x < 1e12; x *= 1.037) {
        CHECK_THAT(portable_log(x), WithinAbs(std::log(x), 1e-15 * std::max(1.0, std::abs(std::log(x)))));
    }
    for (double turns = -2.0; turns < 2.0; turns += 0.00173) {
        CHECK_THAT(sine_of_turns(turns), WithinAbs(std::sin(2.0 * std::numbers::pi * turns), 1e-14));
    }
}

TEST_CASE("normal numbers have the moments and tails of the normal distribution", "[simulate][random_numbers]") {
    RandomNumbers random(2, "moments");
    constexpr int count = 200000;
    double sum = 0.0;
    double squares = 0.0;
    double fourth = 0.0;
    int beyond_two = 0;
    int beyond_three = 0;
    for (int i = 0; i < count; ++i) {
        const double x = random.normal();
        sum += x;
        squares += x * x;
        fourth += x * x * x * x;
        beyond_two += std::abs(x) > 1.959963984540054 ? 1 : 0;
        beyond_three += std::abs(x) > 3.0 ? 1 : 0;
    }
    // Closed forms, with four standard errors: 1/sqrt(n), sqrt(2/n), sqrt(96/n), sqrt(n p (1 - p)).
    CHECK_THAT(sum / count, WithinAbs(0.0, 4.0 / std::sqrt(count)));
    CHECK_THAT(squares / count, WithinAbs(1.0, 4.0 * std::sqrt(2.0 / count)));
    CHECK_THAT(fourth / count, WithinAbs(3.0, 4.0 * std::sqrt(96.0 / count)));
    CHECK_THAT(beyond_two, WithinAbs(0.05 * count, 4.0 * std::sqrt(0.05 * 0.95 * count)));
    CHECK_THAT(beyond_three, WithinAbs(0.0026997960632601866 * count, 4.0 * std::sqrt(0.0027 * count)));
}

TEST_CASE("streams for two purposes or seeds have nothing to do with each other", "[simulate][random_numbers]") {
    const auto correlation = [](RandomNumbers a, RandomNumbers b) {
        double sum = 0.0;
        for (int i = 0; i < 40000; ++i) {
            sum += a.normal() * b.normal();
        }
        return sum / 40000.0;
    };
    CHECK_THAT(correlation({1, "noise"}, {1, "muscle"}), WithinAbs(0.0, 4.0 / 200.0));
    CHECK_THAT(correlation({1, "noise"}, {2, "noise"}), WithinAbs(0.0, 4.0 / 200.0));
    CHECK(RandomNumbers(1, "noise").bits() == RandomNumbers(1, "noise").bits());
}

TEST_CASE("muscle noise has SD 1 and the median frequency asked for", "[simulate][muscle_noise]") {
    const auto [median_hz, rate_hz] =
        GENERATE(table<double, double>({{60.0, 2000.0}, {80.0, 2000.0}, {120.0, 4000.0}, {150.0, 2000.0}}));
    MuscleNoise noise(RandomNumbers(5), Hertz(median_hz), Hertz(rate_hz));
    std::vector<double> samples(400000);
    double squares = 0.0;
    for (double& sample : samples) {
        sample = noise.next();
        squares += sample * sample;
    }
    CHECK_THAT(std::sqrt(squares / static_cast<double>(samples.size())), WithinAbs(1.0, 0.01));
    const double measured_hz = median_frequency(welch(samples, Hertz(rate_hz), {.segment = 1024})).value();
    CHECK_THAT(measured_hz, WithinRel(median_hz, 0.02));
}
