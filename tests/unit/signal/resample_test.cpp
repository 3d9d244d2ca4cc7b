#include <jointrom/signal/resample.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference() {
    return reference_json("reference/signal/interpolation.json");
}

std::vector<double> part(const std::vector<double>& x, std::size_t first, std::size_t count) {
    return {x.begin() + static_cast<long>(first), x.begin() + static_cast<long>(first + count)};
}

}  // namespace

// numpy.interp 1.24.2 and SciPy 1.10.1 CubicSpline.
TEST_CASE("values between irregular samples are the reference ones", "[signal][resample]") {
    const auto irregular = reference()["irregular"];
    const std::vector<double> x = irregular["x"];
    const std::vector<double> y = irregular["y"];
    const std::vector<double> at = irregular["at"];
    CHECK(largest_difference(interpolate(x, y, at), irregular["linear"]) < 1e-12);
    CHECK(largest_difference(interpolate(x, y, at, {.method = Interpolation::cubic}), irregular["cubic_not_a_knot"]) <
          1e-12);
}

TEST_CASE("a cycle is normalised to the reference curve", "[signal][resample]") {
    const auto expected = reference()["cycle_of_38"];
    const auto cycle = part(filter_test_signal(), 20, 38);
    CHECK(largest_difference(time_normalise(cycle), expected["linear"]) < 1e-9);
    CHECK(largest_difference(time_normalise(cycle, 101, Interpolation::cubic), expected["cubic"]) < 1e-9);
}

TEST_CASE("the mean and spread of normalised repetitions are the reference ones", "[signal][resample]") {
    const auto expected = reference()["ensemble"];
    const auto noisy = reference_column("reference/movement/elbow_reps_100hz.csv", "noisy_deg");
    const bool cubic = GENERATE(false, true);
    std::vector<std::vector<double>> curves;
    for (std::size_t k = 0; k < 5; ++k) {
        const Interpolation method = cubic ? Interpolation::cubic : Interpolation::linear;
        curves.push_back(time_normalise(part(noisy, 100 + 270 * k, 221), 101, method));
    }
    std::vector<double> mean(101);
    std::vector<double> sd(101);
    for (std::size_t j = 0; j < 101; ++j) {
        for (const auto& curve : curves) {
            mean[j] += curve[j] / 5.0;
        }
        for (const auto& curve : curves) {
            sd[j] += (curve[j] - mean[j]) * (curve[j] - mean[j]) / 4.0;
        }
        sd[j] = std::sqrt(sd[j]);
    }
    CHECK(largest_difference(mean, expected[cubic ? "cubic_mean" : "linear_mean"]) < 1e-9);
    CHECK(largest_difference(sd, expected[cubic ? "cubic_sd" : "linear_sd"]) < 1e-9);
}

TEST_CASE("a spline reproduces the polynomial that its number of samples allows", "[signal][resample]") {
    const auto count = GENERATE(as<std::size_t>(), 1, 2, 3, 4, 5, 9);
    const std::vector<double> all_times{0.3, 0.8, 1.0, 1.9, 2.0, 2.6, 3.5, 3.6, 4.4};
    const auto cubic = [&](double t) {
        return 2.0 - 3.0 * t * (count > 1) + 0.7 * t * t * (count > 2) + 0.4 * t * t * t * (count > 3);
    };
    const auto times = part(all_times, 0, count);
    std::vector<double> samples;
    std::vector<double> at;
    std::vector<double> expected;
    for (const double t : times) {
        samples.push_back(cubic(t));
    }
    for (double t = times.front(); t <= times.back(); t += 0.07) {
        at.push_back(t);
        expected.push_back(cubic(t));
    }
    CHECK(largest_difference(interpolate(times, samples, at, {.method = Interpolation::cubic}), expected) < 1e-12);
}

TEST_CASE("nothing is put outside the samples or into a gap", "[signal][resample]") {
    const Interpolation method = GENERATE(Interpolation::linear, Interpolation::cubic);
    const std::vector<double> times{0.0, 1.0, 2.0, 3.0, 4.0};
    const std::vector<double> samples{1.0, 2.0, missing, 5.0, 7.0};
    const std::vector<double> at{-0.1, 0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 4.1};
    CHECK(largest_difference(interpolate(times, samples, at, {.method = method}),
                             {missing, 1.0, 1.5, 2.0, missing, missing, missing, 5.0, 6.0, 7.0, missing}) < 1e-12);
    const std::vector<double> with_pause{0.0, 1.0, 2.0, 9.0, 10.0};
    const std::vector<double> line{0.0, 1.0, 2.0, 9.0, 10.0};
    const InterpolationOptions careful{.method = method, .longest_gap = Seconds(1.5)};
    CHECK(largest_difference(interpolate(with_pause, line, std::vector{0.5, 2.0, 5.0, 9.0, 9.5}, careful),
                             {0.5, 2.0, missing, 9.0, 9.5}) < 1e-12);
    CHECK(largest_difference(interpolate(with_pause, line, std::vector{5.0}, {.method = method}), {5.0}) < 1e-12);
}

TEST_CASE("a uniform grid runs from the first to the last sample", "[signal][resample]") {
    const std::vector<double> times{10.0, 10.11, 10.19, 10.3};
    const auto result = resample_uniform(times, std::vector{0.0, 1.1, 1.9, 3.0}, Hertz(20.0));
    CHECK(largest_difference(result, {0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0}) < 1e-9);
    CHECK(resample_uniform({}, {}, Hertz(20.0)).empty());
    CHECK(resample_uniform(std::vector{4.0}, std::vector{8.5}, Hertz(20.0)) == std::vector{8.5});
}

TEST_CASE("resampling a slow sine keeps its range", "[signal][resample]") {
    const auto slow = sine(70.0, 0.25, 50.0, 1000);
    std::vector<double> times(slow.size());
    for (std::size_t i = 0; i < times.size(); ++i) {
        times[i] = static_cast<double>(i) / 50.0;
    }
    const auto finer = resample_uniform(times, slow, Hertz(1000.0), {.method = Interpolation::cubic});
    CHECK(finer.size() == 19981);
    CHECK(largest_difference(finer, sine(70.0, 0.25, 1000.0, finer.size())) < 1e-4);
}

TEST_CASE("a cycle of one sample or none is normalised too", "[signal][resample]") {
    CHECK(time_normalise(std::vector{33.0}, 3) == std::vector{33.0, 33.0, 33.0});
    CHECK(largest_difference(time_normalise({}, 2), {missing, missing}) == 0.0);
    CHECK(largest_difference(time_normalise(std::vector{1.0, missing, 3.0}, 5),
                             {1.0, missing, missing, missing, 3.0}) == 0.0);
}
