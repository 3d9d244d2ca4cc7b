#include <jointrom/signal/unwrap.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

// numpy.unwrap 1.24.2, period 360.
TEST_CASE("unwrapping follows the angle through whole turns", "[signal][unwrap]") {
    const std::vector<double> x{350, 355, 359, 2, 8, 15, 5, 358, 340, 181, -179, -170, 170, -175};
    const std::vector<double> expected{350, 355, 359, 362, 368, 375, 365, 358, 340, 181, 181, 190, 170, 185};
    const Unwrapped result = unwrap(x);
    CHECK(largest_difference(result.samples, expected) < 1e-12);
    CHECK(result.jump_count == 5);
}

TEST_CASE("a signal that never jumps is returned as it is", "[signal][unwrap]") {
    const std::vector<double> x{0.0, 179.0, 0.0, -180.0, 0.0, 180.0};
    const Unwrapped result = unwrap(x);
    CHECK(result.samples == x);
    CHECK(result.jump_count == 0);
    CHECK(unwrap({}).samples.empty());
}

TEST_CASE("steps of several turns are undone at once", "[signal][unwrap]") {
    const Unwrapped result = unwrap(std::vector{0.0, 730.0, 10.0 - 1080.0});
    CHECK(largest_difference(result.samples, {0.0, 10.0, 10.0}) < 1e-12);
    CHECK(result.jump_count == 2);
}

TEST_CASE("gaps are skipped and other periods served", "[signal][unwrap]") {
    const Unwrapped result = unwrap(std::vector{missing, 0.9, missing, missing, 0.1, 0.3, missing}, 1.0);
    CHECK(largest_difference(result.samples, {missing, 0.9, missing, missing, 1.1, 1.3, missing}) < 1e-12);
    CHECK(result.jump_count == 1);
    CHECK(largest_difference(unwrap(std::vector{missing, missing}).samples, {missing, missing}) == 0.0);
}

TEST_CASE("wrapping a smooth turn and unwrapping it are inverse", "[signal][unwrap]") {
    const auto x = sine(900.0, 0.3, 50.0, 400);  // up to 34 deg a sample
    auto wrapped = x;
    for (double& value : wrapped) {
        value = std::remainder(value, 360.0);
    }
    CHECK(largest_difference(unwrap(wrapped).samples, x) < 1e-9);
}
