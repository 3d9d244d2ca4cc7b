#include <jointrom/movement/still_postures.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const std::vector<Waypoint> three_postures{{0, 1.5},    {2, 1.5},    {3, 44.25}, {5, 44.25},
                                           {6, 91.125}, {8, 91.125}, {9, 2.5},   {10, 2.5}};

StillPosture posture_at(double mean_deg) {
    return {.span = {}, .start = {}, .end = {}, .mean = Degrees(mean_deg), .sd = {}, .drift = {}, .budget = {}};
}

std::vector<StillPosture> postures_at(const std::vector<double>& means_deg) {
    std::vector<StillPosture> postures;
    for (const double mean : means_deg) {
        postures.push_back(posture_at(mean));
    }
    return postures;
}

}  // namespace

TEST_CASE("postures between movements are found with their angle and time", "[movement][still_postures]") {
    const auto postures = still_postures(trace_from_angles(minimum_jerk_path(three_postures, 100), Hertz(100)));
    REQUIRE(postures.size() == 4);
    const std::vector<double> means{1.5, 44.25, 91.125, 2.5};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK_THAT(postures[i].mean.value(), WithinAbs(means[i], 0.05));  // the last of the movement belongs to it
    }
    CHECK_THAT(postures[1].start.value(), WithinAbs(3.0, 0.1));
    CHECK_THAT(postures[1].end.value(), WithinAbs(5.0, 0.1));
    CHECK_THAT(postures[1].duration().value(), WithinAbs(2.0, 0.2));
    CHECK_THAT(postures[1].drift.value(), WithinAbs(0.0, 0.02));
}

TEST_CASE("noise neither hides nor divides a posture", "[movement][still_postures]") {
    const auto angles = with_noise(minimum_jerk_path(three_postures, 100), 0.5);
    const auto postures = still_postures(filtered_trace(angles, 100, 0.5));
    REQUIRE(postures.size() == 4);
    CHECK_THAT(postures[1].mean.value(), WithinAbs(44.25, 4 * postures[1].budget.standard_uncertainty()));
}

TEST_CASE("a sagging posture is reported with its drift", "[movement][still_postures]") {
    const auto trace = trace_from_angles(sampled([](double t) { return 80.0 - 0.31 * t; }, 10, 50), Hertz(50));
    const auto postures = still_postures(trace);
    REQUIRE(postures.size() == 1);
    CHECK_THAT(postures[0].drift.value(), WithinAbs(-0.31, 1e-9));
    CHECK_THAT(postures[0].mean.value(), WithinAbs(80.0 - 0.31 * 5, 1e-9));
    CHECK_THAT(postures[0].sd.value(), WithinAbs(0.0, 1e-9));
    // The posture was anywhere along the drift: rectangular, 3.1 deg wide.
    CHECK_THAT(postures[0].budget.standard_uncertainty(), WithinRel(rectangular_u(0.31 * 10 / 2), 1e-6));
}

TEST_CASE("a slow movement is no posture", "[movement][still_postures]") {
    const auto trace = trace_from_angles(sampled([](double t) { return 3.0 * t; }, 30, 50), Hertz(50));
    CHECK(still_postures(trace).empty());
    CHECK_FALSE(still_postures(trace, {.max_drift = DegreesPerSecond(3.1)}).empty());
}

TEST_CASE("the shortest posture is as long as asked for", "[movement][still_postures]") {
    const auto trace = trace_from_angles(minimum_jerk_path(repeated(2, 5.0, 95.0), 100), Hertz(100));
    CHECK(still_postures(trace, {.min_duration = Seconds(0.9)}).size() == 1);  // the first rest
    CHECK(still_postures(trace).size() == 5);
    CHECK(still_postures(trace, {.min_duration = Seconds(60)}).empty());
}

TEST_CASE("a posture does not reach across a gap", "[movement][still_postures]") {
    std::vector<double> angles(400, 33.5);
    angles[200] = std::numeric_limits<double>::quiet_NaN();
    const auto postures = still_postures(trace_from_angles(angles, Hertz(100)));
    REQUIRE(postures.size() == 2);
    CHECK(postures[0].span == SampleSpan{0, 200});
    CHECK(postures[1].span == SampleSpan{201, 400});
    CHECK(postures[0].sd.value() == 0.0);
}

// JCGM 101 in small: 400 recordings of one posture through the 6 Hz filter. The scatter of the means is known to 3.5 %.
TEST_CASE("the noise of a mean counts the samples that are independent", "[movement][still_postures]") {
    constexpr int trials = 400;
    double squares = 0.0;
    double stated = 0.0;
    for (int trial = 0; trial < trials; ++trial) {
        const auto seed = static_cast<std::uint64_t>(trial + 1);
        const auto angles = with_noise(std::vector<double>(500, 61.0), 0.8, seed);
        const auto postures = still_postures(filtered_trace(angles, 100, 0.8));
        REQUIRE(postures.size() == 1);
        squares += std::pow(postures[0].mean.value() - 61.0, 2);
        stated += std::pow(postures[0].budget.standard_uncertainty(), 2);
    }
    CHECK_THAT(std::sqrt(stated / squares), WithinAbs(1.0, 0.15));
    // Without correlation the mean of 500 samples has 0.8 / sqrt(500); the filter leaves that as it is.
    CHECK_THAT(std::sqrt(squares / trials), WithinRel(0.8 / std::sqrt(500.0), 0.12));
}

TEST_CASE("sensor and zero are part of the uncertainty of a posture", "[movement][still_postures]") {
    TraceUncertainty known;
    known.gain_relative = 0.01;
    known.linearity = Degrees(0.4);
    known.zero = Degrees(0.3);
    const auto trace = trace_from_angles(std::vector<double>(300, 120.0), Hertz(100), Seconds(0),
                                         unknown_joint_motion(), Side::unknown, known);
    const auto postures = still_postures(trace);
    REQUIRE(postures.size() == 1);
    CHECK_THAT(postures[0].budget.standard_uncertainty(), WithinRel(1.3, 1e-12));  // sqrt(1.2^2 + 0.4^2 + 0.3^2)
}

TEST_CASE("expected angles are matched in order and nearest", "[movement][still_postures]") {
    const auto postures = postures_at({0.4, 31.0, 2.1, 58.2, 89.0});
    const std::vector<double> expected{0, 30, 60, 90};
    const auto matched = match_expected(postures, expected);
    REQUIRE(matched.matches.size() == 4);
    CHECK(matched.matches[1].posture == 1U);
    CHECK_THAT(matched.matches[2].deviation.value(), WithinAbs(-1.8, 1e-12));
    CHECK(matched.matches[3].posture == 4U);
    CHECK(matched.extra_postures == std::vector<std::size_t>{2});
    CHECK(matched.findings.empty());

    const std::vector<double> downward{90, 60, 30, 0};
    const auto nearest = match_expected(postures, downward, PostureMatching::nearest);
    CHECK(nearest.matches[0].posture == 4U);
    CHECK(nearest.matches[3].posture == 0U);
    const auto ordered = match_expected(postures, downward);  // 31 then 2.1 is the longest falling pair that fits
    CHECK_FALSE(ordered.matches[0].posture);
    CHECK_FALSE(ordered.matches[1].posture);
    CHECK(ordered.matches[2].posture == 1U);
    CHECK(ordered.matches[3].posture == 2U);
    CHECK(ordered.findings.size() == 2);
}

TEST_CASE("an expected angle that was not held is reported", "[movement][still_postures]") {
    const auto matched = match_expected(postures_at({1.0, 44.0}), std::vector<double>{0, 90}, PostureMatching::nearest);
    CHECK_FALSE(matched.matches[1].posture);
    CHECK_FALSE(matched.matches[1].deviation.is_set());
    CHECK(matched.extra_postures == std::vector<std::size_t>{1});
    REQUIRE(matched.findings.size() == 1);
    CHECK(matched.findings[0].code() == "expected-unmatched");
    CHECK_THAT(matched.findings[0].text, ContainsSubstring("90 deg"));
    CHECK(match_expected({}, std::vector<double>{10}).findings.size() == 1);
    CHECK_THROWS_AS(match_expected({}, {}, PostureMatching::nearest, Degrees(-1)), Failure);
}
