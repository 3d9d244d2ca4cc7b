#include <jointrom/movement/smoothness.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <cmath>
#include <numbers>

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference() {
    return reference_json("reference/movement/kinematics.json").at("smoothness");
}

double bell(double u) {
    return u > 0.0 && u < 1.0 ? 30.0 * u * u * (1.0 - u) * (1.0 - u) : 0.0;
}

std::vector<double> minimum_jerk_speed(double arc, double duration_s, std::size_t count) {
    std::vector<double> speed(count);
    for (std::size_t i = 0; i < count; ++i) {
        speed[i] = arc / duration_s * bell(static_cast<double>(i) / static_cast<double>(count - 1));
    }
    return speed;
}

}  // namespace

// Reference values computed with NumPy 1.24.2, see kinematics.json; -1.4058 and -5.322034 are the values in theory.
TEST_CASE("a minimum jerk movement has the smoothness of theory at any size and duration", "[movement][smoothness]") {
    const auto rows = reference().at("minimum_jerk");
    for (const auto& row : rows) {
        const Hertz rate(row.at("fs").get<double>());
        const auto speed =
            minimum_jerk_speed(row.at("D").get<double>(), row.at("T").get<double>(), row.at("n").get<std::size_t>());
        CHECK_THAT(spectral_arc_length(speed, rate), WithinAbs(row.at("sparc").get<double>(), 1e-9));
        CHECK_THAT(log_dimensionless_jerk(speed, rate), WithinAbs(row.at("ldlj_gradient").get<double>(), 1e-9));
        CHECK_THAT(spectral_arc_length(speed, rate), WithinAbs(-1.4058, 0.01));
    }
    CHECK_THAT(log_dimensionless_jerk(minimum_jerk_speed(73.0, 1.7, 17001), Hertz(10000)),
               WithinAbs(-std::log(720.0 / (1.875 * 1.875)), 1e-4));
    CHECK_THAT(spectral_arc_length(minimum_jerk_speed(73.0, 1.0, 10001), Hertz(10000)), WithinAbs(-1.4024, 0.001));
}

TEST_CASE("movements in parts are less smooth", "[movement][smoothness]") {
    const double bell_s = reference().at("bell_duration_s").get<double>();
    const auto rows = reference().at("submovements");
    for (const auto& row : rows) {
        std::vector<double> speed(row.at("n").get<std::size_t>(), 0.0);
        for (std::size_t i = 0; i < speed.size(); ++i) {
            for (int part = 0; part < row.at("k").get<int>(); ++part) {
                speed[i] +=
                    bell((static_cast<double>(i) / 100.0 - part * row.at("gap_s").get<double>()) / bell_s) / bell_s;
            }
        }
        CHECK_THAT(spectral_arc_length(speed, Hertz(100)), WithinAbs(row.at("sparc").get<double>(), 1e-9));
    }
}

TEST_CASE("a raised cosine of speed has its spectral arc length", "[movement][smoothness]") {
    const auto expected = reference().at("raised_cosine_speed");
    std::vector<double> speed(101);
    for (std::size_t i = 0; i < speed.size(); ++i) {
        speed[i] = 1.0 - std::cos(2.0 * std::numbers::pi * static_cast<double>(i) / 100.0);
    }
    CHECK_THAT(spectral_arc_length(speed, Hertz(100)), WithinAbs(expected.at("sparc").get<double>(), 1e-9));
}

TEST_CASE("smoothness is missing where it means nothing", "[movement][smoothness]") {
    CHECK(std::isnan(spectral_arc_length(minimum_jerk_speed(90, 2, 21), Hertz(10))));
    CHECK(std::isnan(spectral_arc_length(minimum_jerk_speed(90, 2, 9), Hertz(100))));
    CHECK(std::isnan(spectral_arc_length(std::vector<double>(50, 0.0), Hertz(100))));
    CHECK(std::isnan(spectral_arc_length({}, Hertz(100))));
    CHECK(std::isnan(log_dimensionless_jerk(minimum_jerk_speed(90, 2, 9), Hertz(100))));
    CHECK(std::isnan(log_dimensionless_jerk(std::vector<double>(50, 3.0), Hertz(100))));
}

TEST_CASE("smoothness of a part of a trace is that of its speed either way", "[movement][smoothness]") {
    const auto angles = minimum_jerk_path({{0, 10}, {1, 10}, {2, 80}, {3, 80}}, 100);
    const auto up = movement_smoothness(trace_from_angles(angles, Hertz(100)), {100, 201});
    const auto down = movement_smoothness(trace_from_angles(negated(angles), Hertz(100)), {100, 201});
    CHECK_THAT(up.spectral_arc_length, WithinAbs(-1.4058, 0.01));
    CHECK_THAT(up.log_dimensionless_jerk, WithinAbs(-5.32, 0.05));
    CHECK(down.spectral_arc_length == up.spectral_arc_length);
    const auto slow = trace_from_angles(angles, Hertz(15));
    CHECK(std::isnan(movement_smoothness(slow, {100, 201}).spectral_arc_length));
    REQUIRE(smoothness_obstacle(slow));
    CHECK_THAT(*smoothness_obstacle(slow), ContainsSubstring("15.0 Hz"));
}
