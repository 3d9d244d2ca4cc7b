#include <jointrom/signal/moving_window.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

namespace {

/// Median of a centred window by sorting, the plain definition.
std::vector<double> sorted_medians(const std::vector<double>& x, std::size_t half) {
    std::vector<double> result;
    for (std::size_t i = 0; i < x.size(); ++i) {
        std::vector<double> window(x.begin() + static_cast<long>(i - std::min(i, half)),
                                   x.begin() + static_cast<long>(std::min(x.size(), i + half + 1)));
        std::ranges::sort(window);
        const std::size_t n = window.size();
        result.push_back((window[(n - 1) / 2] + window[n / 2]) / 2.0);
    }
    return result;
}

}  // namespace

// numpy 1.24.2, mean of x[max(0, i-2) .. i+2].
TEST_CASE("the moving mean is the reference one", "[signal][moving_window]") {
    const std::vector<double> expected = reference_json("reference/signal/smoothing.json")["moving_mean_5"];
    CHECK(largest_difference(moving_mean(filter_test_signal(), 5), expected) < 1e-9);
}

// SciPy 1.10.1 medfilt, which takes zeros beyond the ends: compared where it needs none.
TEST_CASE("the moving median is the reference one", "[signal][moving_window]") {
    const std::vector<double> expected = reference_json("reference/signal/smoothing.json")["median_5_inner"];
    const auto median = moving_median(filter_test_signal(), 5);
    CHECK(largest_difference({median.begin() + 2, median.end() - 2}, expected) == 0.0);
    CHECK(largest_difference(median, sorted_medians(filter_test_signal(), 2)) == 0.0);
    CHECK(largest_difference(moving_median(filter_test_signal(), 301), sorted_medians(filter_test_signal(), 150)) ==
          0.0);
}

// By hand: windows {3,5}, {3,5,10}, {5,10}.
TEST_CASE("mean and spread of a small window are those by hand", "[signal][moving_window]") {
    const std::vector<double> x{3.0, 5.0, 10.0};
    CHECK(largest_difference(moving_mean(x, 3), {4.0, 6.0, 7.5}) < 1e-12);
    CHECK(largest_difference(moving_sd(x, 3), {std::sqrt(2.0), std::sqrt(13.0), std::sqrt(12.5)}) < 1e-12);
    CHECK(largest_difference(moving_rms(x, 3), {std::sqrt(17.0), std::sqrt(134.0 / 3.0), std::sqrt(62.5)}) < 1e-12);
    CHECK(largest_difference(moving_mean(x, 3, WindowEnds::missing), {missing, 6.0, missing}) < 1e-12);
    CHECK(largest_difference(moving_mean(x, 2), {3.0, 4.0, 7.5}) < 1e-12);
    CHECK(largest_difference(moving_mean(x, 2, WindowEnds::missing), {missing, 4.0, 7.5}) < 1e-12);
    CHECK(largest_difference(moving_mean(x, 1), x) == 0.0);
    CHECK(largest_difference(moving_sd(x, 1), std::vector<double>(3, missing)) == 0.0);
    CHECK(largest_difference(moving_mean(x, 99), {6.0, 6.0, 6.0}) < 1e-12);
}

TEST_CASE("missing samples are left out of the window", "[signal][moving_window]") {
    const std::vector<double> x{missing, missing, missing, 4.0, missing, 8.0};
    CHECK(largest_difference(moving_mean(x, 3), {missing, missing, 4.0, 4.0, 6.0, 8.0}) < 1e-12);
    CHECK(largest_difference(moving_rms(x, 3), {missing, missing, 4.0, 4.0, std::sqrt(40.0), 8.0}) < 1e-12);
    CHECK(largest_difference(moving_median(x, 3), {missing, missing, 4.0, 4.0, 6.0, 8.0}) < 1e-12);
    CHECK(largest_difference(moving_sd(x, 3), {missing, missing, missing, missing, std::sqrt(8.0), missing}) < 1e-12);
    CHECK(moving_median({}, 5).empty());
    CHECK(moving_sd({}, 5).empty());
}

TEST_CASE("a huge spike leaves no trace once the window has passed it", "[signal][moving_window]") {
    std::vector<double> x = sine(0.01, 7.0, 100.0, 400);
    for (double& value : x) {
        value += 1e6;
    }
    auto spiked = x;
    spiked[150] = 1e12;
    const auto clean_sd = moving_sd(x, 11);
    const auto spiked_sd = moving_sd(spiked, 11);
    CHECK(largest_difference({clean_sd.begin() + 156, clean_sd.end()}, {spiked_sd.begin() + 156, spiked_sd.end()}) ==
          0.0);
    CHECK(moving_sd(std::vector<double>(20, 1e6 + 0.1), 7)[10] == 0.0);
}
