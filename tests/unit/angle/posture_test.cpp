#include <jointrom/angle/posture.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

std::vector<double> white_noise(std::size_t count, double sd, unsigned seed = 1) {
    std::mt19937 engine(seed);
    std::vector<double> values(count);
    for (double& value : values) {
        double sum = -6.0;  // twelve uniform values: close to normal, and the same with every library
        for (int k = 0; k < 12; ++k) {
            sum += static_cast<double>(engine()) / 4294967296.0;
        }
        value = sd * sum;
    }
    return values;
}

/// Rest for `rest_s`, raise by 100 deg in 1 s (minimum jerk), hold for 1 s, back, rest again.
double movement_deg(double t, double rest_s) {
    const auto rise = [](double u) {
        u = std::clamp(u, 0.0, 1.0);
        return 100.0 * u * u * u * (10.0 - 15.0 * u + 6.0 * u * u);
    };
    return rise(t - rest_s) - rise(t - rest_s - 2.0);
}

std::vector<double> movement(double rate_hz, double rest_s, double noise_sd_deg, double drift_deg_s = 0.0) {
    std::vector<double> angle_deg = white_noise(static_cast<std::size_t>((rest_s + 5.0) * rate_hz), noise_sd_deg);
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        angle_deg[i] += 176.2 - movement_deg(t, rest_s) + drift_deg_s * t;
    }
    return angle_deg;
}

}  // namespace

TEST_CASE("the uncertainty of a held level counts independent samples only", "[angle][posture]") {
    const std::vector<double> noise = white_noise(400, 0.7);
    const HeldLevel white = held_level(noise, {0, 400});
    CHECK_THAT(white.mean, WithinAbs(0.0, 4.0 * 0.7 / 20.0));
    CHECK_THAT(white.sd, WithinRel(0.7, 0.1));
    CHECK(white.effective_count > 200.0);

    // First-order autoregression with r = 0.9: n (1 - r) / (1 + r) = n / 19 independent samples (closed form).
    std::vector<double> slow = white_noise(20000, 1.0, 7);
    for (std::size_t i = 1; i < slow.size(); ++i) {
        slow[i] += 0.9 * slow[i - 1];
    }
    const HeldLevel correlated = held_level(slow, {0, slow.size()});
    CHECK_THAT(correlated.effective_count, WithinRel(20000.0 / 19.0, 0.25));
    CHECK_THAT(held_level(slow, {0, 400}).effective_count, WithinRel(400.0 / 19.0, 0.6));
}

TEST_CASE("drift is reported and counts in the uncertainty of the level", "[angle][posture]") {
    std::vector<double> ramp(101);
    for (std::size_t i = 0; i < ramp.size(); ++i) {
        ramp[i] = 12.5 + 0.02 * static_cast<double>(i);
    }
    const HeldLevel level = held_level(ramp, {0, 101});
    CHECK_THAT(level.mean, WithinAbs(13.5, 1e-12));
    CHECK_THAT(level.drift, WithinAbs(2.0, 1e-12));
    CHECK_THAT(level.sd, WithinAbs(0.0, 1e-12));
    CHECK_THAT(level.u, WithinAbs(2.0 / std::sqrt(12.0), 1e-9));
}

TEST_CASE("levels of constant, single, missing and no samples", "[angle][posture]") {
    const std::vector<double> values{4.25, 4.25, missing, 4.25, 9.5, missing};
    const HeldLevel constant = held_level(values, {0, 4});
    CHECK(constant.mean == 4.25);
    CHECK(constant.sd == 0.0);
    CHECK(constant.u == 0.0);
    CHECK(constant.effective_count == 3.0);
    CHECK(held_level(values, {4, 5}).mean == 9.5);
    CHECK(std::isnan(held_level(values, {5, 6}).mean));
    CHECK(std::isnan(held_level(values, {2, 2}).mean));
}

TEST_CASE("rests and holds are found at any rate and noise", "[angle][posture]") {
    const double rate_hz = GENERATE(20.0, 50.0, 100.0, 1000.0, 10000.0);
    const double noise_deg = GENERATE(0.0, 0.3, 1.5);
    CAPTURE(rate_hz, noise_deg);
    const std::vector<double> angle_deg = movement(rate_hz, 1.5, noise_deg);
    const auto stretches = still_stretches(angle_deg, Hertz(rate_hz));
    REQUIRE(stretches.size() == 3);
    const double times_s[] = {0.0, 1.5, 2.5, 3.5, 4.5, 6.5};
    for (std::size_t k = 0; k < 3; ++k) {
        CHECK_THAT(static_cast<double>(stretches[k].first) / rate_hz, WithinAbs(times_s[2 * k], 0.25));
        CHECK_THAT(static_cast<double>(stretches[k].last) / rate_hz, WithinAbs(times_s[2 * k + 1], 0.25));
        CHECK_THAT(held_level(angle_deg, stretches[k]).mean, WithinAbs(k == 1 ? 76.2 : 176.2, 1.0));
    }
}

TEST_CASE("a slowly drifting rest is still one posture", "[angle][posture]") {
    const std::vector<double> angle_deg = movement(100.0, 2.0, 0.3, 0.5);
    const auto stretches = still_stretches(angle_deg, Hertz(100.0));
    REQUIRE_FALSE(stretches.empty());
    CHECK(stretches[0].first == 0);
    CHECK(stretches[0].last > 180);
    CHECK_THAT(held_level(angle_deg, stretches[0]).drift, WithinAbs(1.0, 0.2));
}

TEST_CASE("at two samples a second a posture needs three samples", "[angle][posture]") {
    const std::vector<double> angle_deg{5.0, 5.2, 5.1, 5.0, 60.0, 110.0, 111.0, 40.0, 6.0, 5.5};
    const auto stretches = still_stretches(angle_deg, Hertz(2.0));
    REQUIRE(stretches.size() == 1);
    CHECK(stretches[0] == SampleSpan{0, 3});
}

TEST_CASE("a movement that never rests has no posture", "[angle][posture]") {
    const double rate_hz = GENERATE(4.0, 50.0, 1000.0);
    std::vector<double> angle_deg = white_noise(static_cast<std::size_t>(10.0 * rate_hz), 0.3);
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        angle_deg[i] += 60.0 - 60.0 * std::cos(2.0 * std::numbers::pi * 0.7 * t);
    }
    CAPTURE(rate_hz);
    CHECK(still_stretches(angle_deg, Hertz(rate_hz)).empty());
    CHECK_FALSE(is_still(angle_deg, {0, angle_deg.size()}, Hertz(rate_hz)));
}

TEST_CASE("constant, gapped and short recordings", "[angle][posture]") {
    const std::vector<double> constant(300, 42.0);
    CHECK(still_stretches(constant, Hertz(100.0)) == std::vector<SampleSpan>{{0, 300}});
    CHECK(is_still(constant, {0, 300}, Hertz(100.0)));
    std::vector<double> gapped = constant;
    gapped[100] = missing;
    CHECK(still_stretches(gapped, Hertz(100.0)) == std::vector<SampleSpan>{{0, 100}, {101, 300}});
    CHECK(still_stretches(std::vector<double>(20, 42.0), Hertz(100.0)).empty());
    CHECK(still_stretches(std::vector<double>{}, Hertz(100.0)).empty());
    CHECK(still_stretches(std::vector<double>(300, missing), Hertz(100.0)).empty());
}
