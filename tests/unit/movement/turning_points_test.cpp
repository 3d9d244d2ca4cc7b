#include <jointrom/movement/turning_points.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const double missing = std::numeric_limits<double>::quiet_NaN();

std::vector<double> elbow(const std::string& column) {
    return reference_column("reference/movement/elbow_reps_100hz.csv", column);
}

std::vector<TurningPoint> inner(const std::vector<TurningPoint>& points, TurningPointKind kind) {
    std::vector<TurningPoint> result;
    for (const TurningPoint& point : points) {
        if (point.kind == kind && !point.at_edge) {
            result.push_back(point);
        }
    }
    return result;
}

void check_equal(const std::vector<TurningPoint>& points, const nlohmann::json& expected) {
    REQUIRE(points.size() == expected.at("peaks").size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        CHECK(points[i].sample == expected.at("peaks").at(i).get<std::size_t>());
        CHECK_THAT(points[i].prominence.value(), WithinAbs(expected.at("prominences").at(i).get<double>(), 1e-12));
    }
}

}  // namespace

// Expected: find_peaks of SciPy 1.10.1 (prominence=60), see peaks.json.
TEST_CASE("maxima and minima of noisy repetitions are those of SciPy", "[movement][turning_points]") {
    const auto expected = reference_json("reference/movement/peaks.json");
    const auto trace = trace_from_angles(elbow("noisy_deg"), Hertz(100));
    const auto points = turning_points(trace, {.prominence = Degrees(60)});
    check_equal(inner(points, TurningPointKind::maximum), expected.at("elbow_noisy_max"));
    check_equal(inner(points, TurningPointKind::minimum), expected.at("elbow_noisy_min"));
    REQUIRE(points.size() == 11);
    CHECK((points.front().at_edge && points.back().at_edge));
    CHECK(points[1].time.value() == trace.time(187).value());
}

TEST_CASE("a held top is reported at its middle with the span that was held", "[movement][turning_points]") {
    const auto expected = reference_json("reference/movement/peaks.json").at("elbow_clean_plateau");
    const auto trace = trace_from_angles(elbow("clean_deg"), Hertz(100));
    const auto maxima = inner(turning_points(trace, {.plateau_tolerance = Degrees(0)}), TurningPointKind::maximum);
    check_equal(maxima, expected);
    for (std::size_t i = 0; i < maxima.size(); ++i) {
        CHECK(maxima[i].plateau.first == expected.at("left_edges").at(i).get<std::size_t>());
        CHECK(maxima[i].plateau.last == expected.at("right_edges").at(i).get<std::size_t>() + 1);
    }
    // With the default tolerance of 2 % of 120 deg a minimum-jerk stop of 0.8 s (1 s) is within it for its last 10.8 %:
    // 10 u^3 - 15 u^4 + 6 u^5 = 0.0200 at u = 0.1395.
    const auto usual = inner(turning_points(trace), TurningPointKind::maximum);
    CHECK_THAT(trace.duration(usual[0].plateau).value(), WithinAbs(0.4 + 0.1395 * 1.8, 0.021));
}

TEST_CASE("prominences are topographic", "[movement][turning_points]") {
    const auto reference = reference_json("reference/movement/peaks.json").at("tiny");
    const auto trace = trace_from_angles(reference.at("x").get<std::vector<double>>(), Hertz(10));
    const auto points = turning_points(trace, {.prominence = Degrees(2), .min_duration = Seconds(0)});
    check_equal(inner(points, TurningPointKind::maximum), reference.at("prominence_2"));
}

TEST_CASE("turning points of the opposite sign convention are the same with kinds swapped",
          "[movement][turning_points]") {
    const auto angles = with_noise(minimum_jerk_path(repeated(4, 12.3, 87.1), 50), 0.4);
    const auto points = turning_points(trace_from_angles(angles, Hertz(50)));
    const auto mirrored = turning_points(trace_from_angles(negated(angles), Hertz(50)));
    REQUIRE(points.size() == 9);
    REQUIRE(mirrored.size() == points.size());
    for (std::size_t i = 0; i < points.size(); ++i) {
        CHECK(mirrored[i].sample == points[i].sample);
        CHECK(mirrored[i].kind != points[i].kind);
        CHECK(mirrored[i].angle == -points[i].angle);
        CHECK_THAT(mirrored[i].prominence.value(), WithinAbs(points[i].prominence.value(), 1e-12));
    }
}

TEST_CASE("neither noise nor stillness makes turning points", "[movement][turning_points]") {
    CHECK(turning_points(trace_from_angles(std::vector<double>(500, 31.7), Hertz(100))).empty());
    const auto noisy = with_noise(std::vector<double>(60000, 31.7), 0.5);
    CHECK(turning_points(trace_from_angles(noisy, Hertz(100))).empty());
    CHECK(turning_points(filtered_trace(noisy, 100, 0.5)).empty());
}

TEST_CASE("a glitch is no turning point", "[movement][turning_points]") {
    auto angles = minimum_jerk_path(repeated(3, 5.0, 95.0), 200);
    const auto clean = turning_points(trace_from_angles(angles, Hertz(200)));
    for (std::size_t i = 110; i < 115; ++i) {
        angles[i] = 171.0;
    }
    const auto points = turning_points(trace_from_angles(angles, Hertz(200)));
    REQUIRE(points.size() == clean.size());
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
        CHECK(points[i].sample == clean[i].sample);
    }
    CHECK(turning_points(trace_from_angles(angles, Hertz(200)), {.min_duration = Seconds(0)}).size() ==
          clean.size() + 2);
}

TEST_CASE("a gap is an edge", "[movement][turning_points]") {
    auto angles = minimum_jerk_path(repeated(2, 5.0, 95.0), 100);
    for (std::size_t i = 175; i < 185; ++i) {
        angles[i] = missing;
    }
    const auto points = turning_points(trace_from_angles(angles, Hertz(100)));
    std::vector<bool> edges;
    for (const TurningPoint& point : points) {
        edges.push_back(point.at_edge);
    }
    // Up to the gap; from the gap: top, rest, top, rest.
    CHECK(edges == std::vector<bool>{true, true, true, false, false, true});
    CHECK(points[1].kind == TurningPointKind::maximum);
    CHECK(points[1].sample == 174);
}

TEST_CASE("the robust arc ignores spikes and long rests", "[movement][turning_points]") {
    auto angles = minimum_jerk_path({{0, 3.0}, {50, 3.0}, {51, 93.0}, {51.5, 93.0}, {52.5, 3.0}, {100, 3.0}}, 100);
    CHECK_THAT(robust_arc(trace_from_angles(angles, Hertz(100))).value(), WithinAbs(90.0, 0.1));
    angles[2000] = -160.0;
    angles[3000] = 700.0;
    CHECK_THAT(robust_arc(trace_from_angles(angles, Hertz(100))).value(), WithinAbs(90.0, 0.1));
    CHECK(robust_arc(trace_from_angles({1.0, 1.0, 1.0}, Hertz(2))).value() == 0.0);
}

TEST_CASE("a prominence that is not positive is refused", "[movement][turning_points]") {
    const auto trace = trace_from_angles({1.0, 2.0, 1.0}, Hertz(2));
    CHECK_THROWS_AS(turning_points(trace, {.prominence = Degrees(0)}), Failure);
}
