#include <jointrom/stats/sign_mix.hpp>

#include "stats_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

TEST_CASE("left and right values of opposite sign are two heaps", "[stats][sign_mix]") {
    const SignMix mix = sign_mix(std::vector{131.0, -128.5, 140.2, -139.0, missing, 122.7, -125.1, 0.0});
    CHECK(mix.negative == 3);
    CHECK(mix.positive == 3);
    CHECK(mix.share > 0.99);
    CHECK(mix.is_mixed());
}

// Knee extension of 29 subjects about neutral (Eliasziw et al. 1994): both signs, one heap.
TEST_CASE("values about zero are one heap", "[stats][sign_mix]") {
    CHECK_FALSE(sign_mix(reference_column("reference/stats/goniometer_29x6.csv", "L1")).is_mixed());
    std::vector<double> even;
    for (int i = -20; i <= 20; ++i) {
        even.push_back(0.5 * i);
    }
    CHECK_THAT(sign_mix(even).share, WithinAbs(0.75, 0.02));  // of a uniform distribution, by integration
    CHECK_FALSE(sign_mix(std::vector{-50.0, 51.0, 52.0}).is_mixed());
    CHECK_FALSE(sign_mix({}).is_mixed());
}
