#include <jointrom/angle/calibration_reading.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <random>

using namespace jointrom;

namespace {

/// A protractor moved by hand: three seconds at each angle, 0.8 s from one to the next, 0.004 V of uniform noise.
Channel protractor(const std::vector<double>& angles_deg, double volts_per_deg) {
    std::mt19937 engine(11);
    Channel channel;
    channel.unit = "V";
    for (std::size_t k = 0; k < angles_deg.size(); ++k) {
        for (int i = 0; i < 380; ++i) {
            const double u = i < 300 || k + 1 == angles_deg.size() ? 0.0 : (i - 300) / 80.0;
            const double angle_deg = angles_deg[k] + (u > 0.0 ? (angles_deg[k + 1] - angles_deg[k]) * u : 0.0);
            const double noise = 2.0 * static_cast<double>(engine()) / 4294967296.0 - 1.0;
            channel.samples.push_back(0.645 + volts_per_deg * angle_deg + 0.004 * noise);
        }
    }
    channel.times = TimeBase::regular(Seconds(5.0), Hertz(100.0), channel.samples.size());
    return channel;
}

const std::vector<double> up_and_down_deg{0.0, 30.0, 60.0, 90.0, 120.0, 90.0, 60.0, 30.0, 0.0};

}  // namespace

TEST_CASE("the reading of a window becomes a point that names where it came from", "[angle][calibration_reading]") {
    const Channel channel = protractor(up_and_down_deg, 0.0125);
    const CalibrationPoint point =
        read_calibration_point(channel, {Seconds(9.0), Seconds(11.5)}, Degrees(30.0), Degrees(0.5), "jig.csv");
    CHECK(point.known_deg == 30.0);
    CHECK(point.known_u_deg == 0.5);
    CHECK_THAT(point.reading, WithinAbs(1.02, 0.001));
    CHECK_THAT(point.reading_sd, WithinAbs(0.004 / std::sqrt(3.0), 0.0005));
    CHECK(point.effective_count > 50.0);
    CHECK(point.source == "jig.csv@9,11.5");
    CHECK_THROWS_AS(
        read_calibration_point(channel, {Seconds(0.0), Seconds(4.0)}, Degrees(0.0), Degrees(0.0), "jig.csv"), Failure);
}

TEST_CASE("a reading that moves within its window is a less certain point", "[angle][calibration_reading]") {
    const Channel channel = protractor({0.0, 30.0, 60.0}, 0.0125);
    auto still = read_calibration_point(channel, {Seconds(5.0), Seconds(8.0)}, Degrees(0.0), {}, "a");
    auto moving = read_calibration_point(channel, {Seconds(7.0), Seconds(9.0)}, Degrees(30.0), {}, "b");
    CHECK(moving.reading_sd / std::sqrt(moving.effective_count) > 0.1);
    Findings findings;
    (void)fit_calibration({still, moving, {.known_deg = 60.0, .reading = 1.395}}, {.unit = "V"}, findings);
    CHECK(contains(findings, "calibration-reading-unsteady"));
}

TEST_CASE("held readings are matched with the known angles in their order", "[angle][calibration_reading]") {
    const double volts_per_deg = GENERATE(0.0125, -0.004);
    const Channel channel = protractor(up_and_down_deg, volts_per_deg);
    const auto points = read_calibration_holds(channel, up_and_down_deg, Degrees(0.0), "jig.csv");
    REQUIRE(points.size() == 9);
    for (std::size_t i = 0; i < 9; ++i) {
        CHECK(points[i].known_deg == up_and_down_deg[i]);
        CHECK_THAT(points[i].reading, WithinAbs(0.645 + volts_per_deg * up_and_down_deg[i], 0.001));
    }
    Findings findings;
    const Calibration line = fit_calibration(points, {.unit = "V"}, findings);
    CHECK_THAT(line.gain_deg_per_unit, WithinRel(1.0 / volts_per_deg, 0.005));
    CHECK(findings.empty());
}

TEST_CASE("another number of holds than known angles is refused with where they are", "[angle][calibration_reading]") {
    const Channel channel = protractor({0.0, 45.0, 90.0}, 0.0125);
    const std::vector<double> four{0.0, 30.0, 60.0, 90.0}, equal{30.0, 30.0, 30.0};
    try {
        (void)read_calibration_holds(channel, four, Degrees(0.0), "jig.csv");
        FAIL("was accepted");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "calibration-holds");
        CHECK_THAT(failure.what(),
                   ContainsSubstring("4 known angles, but 3 readings") && ContainsSubstring("5.0-7.9 s"));
    }
    CHECK_THROWS_AS(read_calibration_holds(channel, equal, Degrees(0.0), "jig.csv"), Failure);
}
