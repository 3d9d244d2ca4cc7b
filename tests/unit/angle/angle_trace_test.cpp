#include <jointrom/angle/angle_trace.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

std::vector<double> parabola(std::size_t count, double rate_hz) {
    std::vector<double> angle_deg(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        angle_deg[i] = 3.7 + 21.5 * t - 8.25 * t * t;
    }
    return angle_deg;
}

}  // namespace

TEST_CASE("velocity and acceleration of a parabola are exact up to both ends", "[angle][angle_trace]") {
    const AngleTrace trace =
        trace_from_angles(parabola(53, 25.0), Hertz(25.0), Seconds(1.5), joint_motion("knee"), Side::left);
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double t = static_cast<double>(i) / 25.0;
        CHECK_THAT(trace.velocity_deg_s()[i], WithinAbs(21.5 - 16.5 * t, 1e-9));
        CHECK_THAT(trace.acceleration_deg_s2(i), WithinAbs(-16.5, 1e-8));
    }
    CHECK_THAT(trace.time(50).value(), WithinAbs(3.5, 1e-12));
    CHECK_THAT(trace.duration({3, 28}).value(), WithinAbs(1.0, 1e-12));
    CHECK(trace.motion().joint == "knee");
    CHECK(trace.side() == Side::left);
    CHECK_FALSE(trace.lowpass().is_set());
    CHECK(trace.pieces().size() == 1);
    CHECK(trace.steps().size() == 1);
}

TEST_CASE("missing samples split the trace and are never bridged", "[angle][angle_trace]") {
    std::vector<double> angle_deg = parabola(30, 10.0);
    angle_deg[0] = missing;
    angle_deg[12] = missing;
    angle_deg[15] = missing;  // two samples between gaps are too few to differentiate
    const AngleTrace trace = trace_from_angles(angle_deg, Hertz(10.0));
    REQUIRE(trace.pieces().size() == 2);
    CHECK(trace.pieces()[0] == SampleSpan{1, 12});
    CHECK(trace.pieces()[1] == SampleSpan{16, 30});
    for (const std::size_t gap : {0U, 12U, 13U, 14U, 15U}) {
        CHECK(std::isnan(trace.angle_deg()[gap]));
        CHECK(std::isnan(trace.unfiltered_deg()[gap]));
        CHECK(std::isnan(trace.velocity_deg_s()[gap]));
        CHECK(std::isnan(trace.acceleration_deg_s2(gap)));
    }
    CHECK_THAT(trace.velocity_deg_s()[11], WithinAbs(21.5 - 16.5 * 1.1, 1e-9));
    CHECK_THAT(trace.velocity_deg_s()[16], WithinAbs(21.5 - 16.5 * 1.6, 1e-9));
}

TEST_CASE("fewer than three samples in a row make no trace", "[angle][angle_trace]") {
    for (const std::vector<double>& angle_deg :
         {std::vector<double>{}, {4.5}, {4.5, 6.5}, {4.5, 6.5, missing, 4.5, 6.5}, {missing, missing, missing}}) {
        try {
            (void)trace_from_angles(angle_deg, Hertz(100.0));
            FAIL("was accepted");
        } catch (const Failure& failure) {
            CHECK(failure.code() == "too-short");
            CHECK(failure.kind() == FailureKind::unreadable_data);
        }
    }
    CHECK(trace_from_angles({4.5, 6.5, 7.25}, Hertz(100.0)).size() == 3);
}
