#include <jointrom/recording/repeated_readings.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <vector>

using namespace jointrom;

namespace {

/// Five seconds out of ten of a joint that bends by 100 degrees, with noise, at `rate_hz`.
std::vector<double> movement(double rate_hz, double noise_deg, double seconds = 10.0) {
    std::mt19937 random(17);
    std::normal_distribution<double> noise(0.0, 1.0);
    std::vector<double> samples;
    for (std::size_t i = 0; i < static_cast<std::size_t>(seconds * rate_hz); ++i) {
        const double time_s = static_cast<double>(i) / rate_hz;
        const double angle = 50.0 - 50.0 * std::cos(std::numbers::pi * time_s);
        samples.push_back((std::fmod(time_s, 4.0) < 2.0 ? angle : 0.0) + noise_deg * noise(random));
    }
    return samples;
}

std::vector<double> rounded(std::vector<double> samples, double resolution) {
    for (double& sample : samples) {
        sample = resolution * std::round(sample / resolution);
    }
    return samples;
}

std::vector<double> held(const std::vector<double>& readings, std::size_t times) {
    std::vector<double> samples;
    for (const double reading : readings) {
        samples.insert(samples.end(), times, reading);
    }
    return samples;
}

std::vector<double> joined(const std::vector<double>& readings, std::size_t times) {
    std::vector<double> samples;
    for (std::size_t i = 0; i + 1 < readings.size(); ++i) {
        for (std::size_t k = 0; k < times; ++k) {
            const double share = static_cast<double>(k) / static_cast<double>(times);
            samples.push_back((1.0 - share) * readings[i] + share * readings[i + 1]);
        }
    }
    return samples;
}

}  // namespace

TEST_CASE("readings that are repeated twenty times are found", "[recording][repeated_readings]") {
    std::vector<double> samples = held(rounded(movement(50.0, 0.3), 0.1), 20);
    samples.erase(samples.begin(), samples.begin() + 7);
    const auto found = find_repeated_readings(samples, Hertz(1000.0));
    REQUIRE(found.has_value());
    CHECK(found->kind == RepeatedReadings::Kind::held);
    CHECK(found->true_rate == Hertz(50.0));
    CHECK(found->every == 20);
    CHECK(found->first == 13);
}

TEST_CASE("readings that arrive unevenly give their mean rate", "[recording][repeated_readings]") {
    std::mt19937 random(23);
    std::vector<double> samples;
    for (const double reading : rounded(movement(25.0, 0.2, 60.0), 0.01)) {
        samples.insert(samples.end(), 1 + random() % 5, reading);
    }
    const auto found = find_repeated_readings(samples, Hertz(75.0));
    REQUIRE(found.has_value());
    CHECK_THAT(found->true_rate.value(), WithinRel(25.0, 0.1));
    CHECK(found->every == 3);
}

TEST_CASE("joined readings are found where a long recording moves", "[recording][repeated_readings]") {
    std::vector<double> samples(20000, 0.0);  // at rest for longer than the movement lasts
    const std::vector<double> moving = joined(movement(50.0, 0.3, 40.0), 10);
    samples.insert(samples.end(), moving.begin(), moving.end());
    REQUIRE(samples.size() > 32768);
    const auto found = find_repeated_readings(samples, Hertz(500.0));
    REQUIRE(found.has_value());
    CHECK(found->kind == RepeatedReadings::Kind::interpolated);
    CHECK(found->every == 10);
}

TEST_CASE("readings joined by straight lines are found, rounded or not", "[recording][repeated_readings]") {
    for (const double resolution : {0.0, 0.01, 0.1}) {
        for (const std::size_t times : {4U, 10U, 20U}) {
            CAPTURE(resolution, times);
            std::vector<double> samples = joined(movement(1000.0 / static_cast<double>(times), 0.3), times);
            samples.erase(samples.begin(), samples.begin() + 3);
            const auto found =
                find_repeated_readings(resolution > 0.0 ? rounded(samples, resolution) : samples, Hertz(1000.0));
            REQUIRE(found.has_value());
            CHECK(found->kind == RepeatedReadings::Kind::interpolated);
            CHECK(found->every == times);
            CHECK(found->first == times - 3);
        }
    }
}

TEST_CASE("a true sampling is not taken for a filled up one", "[recording][repeated_readings]") {
    for (const double noise_deg : {0.0, 0.02, 0.3}) {
        for (const double resolution : {0.001, 0.1, 1.0}) {
            for (const double rate_hz : {100.0, 1000.0}) {
                CAPTURE(noise_deg, resolution, rate_hz);
                const auto samples = rounded(movement(rate_hz, noise_deg), resolution);
                CHECK_FALSE(find_repeated_readings(samples, Hertz(rate_hz)).has_value());
            }
        }
    }
}

TEST_CASE("a spike makes no filled up channel", "[recording][repeated_readings]") {
    std::vector<double> samples = rounded(movement(1000.0, 0.0), 0.01);
    samples[3333] += 70.0;
    CHECK_FALSE(find_repeated_readings(samples, Hertz(1000.0)).has_value());
}

TEST_CASE("nothing is said of channels without movement or samples", "[recording][repeated_readings]") {
    CHECK_FALSE(find_repeated_readings(std::vector<double>{}, Hertz(10.0)).has_value());
    CHECK_FALSE(find_repeated_readings(std::vector<double>(1000, 4.5), Hertz(10.0)).has_value());
    const std::vector<double> missing(1000, std::numeric_limits<double>::quiet_NaN());
    CHECK_FALSE(find_repeated_readings(missing, Hertz(10.0)).has_value());
}
