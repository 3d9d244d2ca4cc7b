#include <jointrom/signal/savitzky_golay.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference(const std::string& key) {
    return reference_json("reference/signal/savitzky_golay.json")[key];
}

double largest(const std::vector<double>& x) {
    return largest_difference(x, std::vector<double>(x.size(), 0.0));
}

std::vector<double> divided(std::vector<double> numerators, double denominator) {
    for (double& value : numerators) {
        value /= denominator;
    }
    return numerators;
}

}  // namespace

// Integer tables of Savitzky and Golay 1964.
TEST_CASE("the weights are those of the published tables", "[signal][savitzky_golay]") {
    CHECK(largest_difference(savitzky_golay_weights({5, 2}), divided({-3, 12, 17, 12, -3}, 35)) < 1e-14);
    CHECK(largest_difference(savitzky_golay_weights({7, 2}), divided({-2, 3, 6, 7, 6, 3, -2}, 21)) < 1e-14);
    CHECK(largest_difference(savitzky_golay_weights({5, 2, 1}), divided({-2, -1, 0, 1, 2}, 10)) < 1e-14);
}

// SciPy 1.10.1: savgol_coeffs(use="dot").
TEST_CASE("the weights are the reference ones", "[signal][savitzky_golay]") {
    for (const auto& row : reference("weights")) {
        for (const std::size_t derivative : {0U, 1U, 2U}) {
            const auto weights = savitzky_golay_weights({row["window"], row["degree"], derivative});
            CHECK(largest_difference(weights, row["derivatives"][derivative]) < 1e-12);
        }
    }
}

// SciPy 1.10.1: savgol_filter(mode="interp").
TEST_CASE("smoothed signals and derivatives are the reference ones", "[signal][savitzky_golay]") {
    for (const auto& row : reference("outputs")) {
        const SavitzkyGolay filter{row["window"], row["degree"], row["derivative"]};
        const std::vector<double> expected = row["y"];
        CHECK(largest_difference(savitzky_golay(filter_test_signal(), filter, Hertz(100.0)), expected) <
              1e-9 * largest(expected));
    }
}

TEST_CASE("a polynomial of the degree passes unchanged to its very ends", "[signal][savitzky_golay]") {
    std::vector<double> cubic(40);
    std::vector<double> slope(40);
    for (std::size_t i = 0; i < cubic.size(); ++i) {
        const double t = static_cast<double>(i) / 20.0;
        cubic[i] = 4.0 - 30.0 * t + 12.5 * t * t - 3.0 * t * t * t;
        slope[i] = -30.0 + 25.0 * t - 9.0 * t * t;
    }
    CHECK(largest_difference(savitzky_golay(cubic, {11, 3}, Hertz(20.0)), cubic) < 1e-10);
    CHECK(largest_difference(savitzky_golay(cubic, {11, 3, 1}, Hertz(20.0)), slope) < 1e-9);
}

TEST_CASE("pieces shorter than the window get a shorter one", "[signal][savitzky_golay]") {
    const std::vector<double> x{1.0, 2.0, 3.0, 4.0, missing, 7.0, missing, 1.0, 3.0, 1.0};
    const auto smooth = savitzky_golay(x, {7, 1}, Hertz(1.0));
    // Lines: 1 to 4 exactly, a single sample not at all, 1 3 1 by its mean.
    CHECK(largest_difference(smooth, {1.0, 2.0, 3.0, 4.0, missing, missing, missing, 5.0 / 3, 5.0 / 3, 5.0 / 3}) <
          1e-12);
    CHECK(savitzky_golay({}, {5, 2}, Hertz(1.0)).empty());
    CHECK(largest_difference(savitzky_golay(x, {1, 0}, Hertz(1.0)), x) < 1e-12);
}
