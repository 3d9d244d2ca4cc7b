#include <angle/reading_repair.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>
#include <numbers>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

std::vector<double> swing(std::size_t count, double rate_hz, double amplitude_deg = 60.0, double frequency_hz = 0.5) {
    std::vector<double> angle_deg(count);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        angle_deg[i] = amplitude_deg * (1.0 - std::cos(2.0 * std::numbers::pi * frequency_hz * t));
    }
    return angle_deg;
}

EvenSeries even(const TimeBase& times, std::vector<double> samples, Findings& findings) {
    return even_series(times, std::move(samples), Seconds(0.1), findings);
}

}  // namespace

TEST_CASE("a reading that passes 360 and starts again is joined up", "[angle][reading_repair]") {
    const double rate_hz = GENERATE(5.0, 100.0, 1000.0);
    const std::vector<double> truth = swing(static_cast<std::size_t>(6.0 * rate_hz), rate_hz);
    std::vector<double> wrapped = truth;
    for (double& sample : wrapped) {
        sample = std::fmod(sample + 262.3, 360.0);
    }
    wrapped[2] = missing;
    CHECK(join_full_turns(wrapped, Hertz(rate_hz)) == 6);
    for (std::size_t i = 3; i < truth.size(); ++i) {
        REQUIRE_THAT(wrapped[i], WithinAbs(truth[i] + 262.3, 1e-9));
    }
}

TEST_CASE("steps that are no full turn are left alone", "[angle][reading_repair]") {
    std::vector<double> samples{10.0, 666.0, 11.0, -170.0, 20.0, 21.0};
    const std::vector<double> before = samples;
    CHECK(join_full_turns(samples, Hertz(100.0)) == 0);
    CHECK(samples == before);
    CHECK(join_full_turns({}, Hertz(100.0)) == 0);
}

TEST_CASE("spikes are found and fast movement is not", "[angle][reading_repair]") {
    std::vector<double> samples = swing(400, 100.0, 70.0, 1.5);  // up to 660 deg/s
    CHECK(find_spikes(samples, Hertz(100.0)).empty());
    samples[100] = 666.0;
    samples[200] = samples[201] = 0.0 - 90.0;
    samples[301] += 25.0;
    samples[0] = 180.0;
    samples[399] = -99.0;
    CHECK(find_spikes(samples, Hertz(100.0)) ==
          std::vector<SampleSpan>{{0, 1}, {100, 101}, {200, 202}, {301, 302}, {399, 400}});
}

TEST_CASE("a spike beside a gap is found and beside the second sample it is not the first", "[angle][reading_repair]") {
    std::vector<double> samples(50, 30.0);
    samples[1] = 666.0;
    samples[20] = missing;
    samples[21] = 120.0;
    samples[40] = missing;
    samples[41] = 90.0;
    samples[42] = missing;
    CHECK(find_spikes(samples, Hertz(100.0)) == std::vector<SampleSpan>{{1, 2}, {21, 22}});
}

TEST_CASE("at three samples a second a movement from one sample to the next is no spike", "[angle][reading_repair]") {
    std::vector<double> samples{12.0, 14.0, 13.0, 128.0, 12.0, 13.0, 130.0, 129.0, 14.0, 12.0, 15.0, 13.0};
    CHECK(find_spikes(samples, Hertz(3.6)).empty());
    samples[9] = 666.0;
    CHECK(find_spikes(samples, Hertz(3.6)) == std::vector<SampleSpan>{{9, 10}});
}

TEST_CASE("a step of the level is no spike", "[angle][reading_repair]") {
    std::vector<double> samples(50, 30.0);
    for (std::size_t i = 25; i < 50; ++i) {
        samples[i] = 90.0;
    }
    CHECK(find_spikes(samples, Hertz(100.0)).empty());
    CHECK(find_spikes(std::vector<double>{1.0, 99.0}, Hertz(100.0)).empty());
    CHECK(find_spikes(std::vector<double>{}, Hertz(100.0)).empty());
}

TEST_CASE("short gaps are filled by straight lines and long ones stay", "[angle][reading_repair]") {
    std::vector<double> samples(200, 0.0);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] = 0.5 * static_cast<double>(i);
    }
    for (const std::size_t i : {0U, 50U, 51U, 52U, 53U, 54U, 55U, 56U, 57U, 58U, 59U, 199U}) {
        samples[i] = missing;
    }
    for (std::size_t i = 100; i < 111; ++i) {
        samples[i] = missing;
    }
    Findings findings;
    const EvenSeries series = even(TimeBase::regular(Seconds(2.0), Hertz(100.0), 200), samples, findings);
    CHECK_THAT(series.samples[55], WithinAbs(27.5, 1e-12));
    CHECK(std::isnan(series.samples[0]));
    CHECK(std::isnan(series.samples[100]));
    CHECK(std::isnan(series.samples[110]));
    CHECK(std::isnan(series.samples[199]));
    REQUIRE(findings.size() == 2);
    CHECK(findings[0].code() == "gap-bridged");
    CHECK_THAT(findings[0].text, ContainsSubstring("0.100 s"));
    CHECK(findings[1].code() == "gap");
    CHECK_THAT(findings[1].text, ContainsSubstring("0.11 s without samples at 3.00 s"));
}

TEST_CASE("at two samples a second two missing ones are bridged and three are not", "[angle][reading_repair]") {
    Findings findings;
    const EvenSeries series = even(TimeBase::regular(Seconds(0.0), Hertz(2.0), 9),
                                   {5.0, missing, missing, 8.0, missing, missing, missing, 20.0, 21.0}, findings);
    CHECK_THAT(series.samples[2], WithinAbs(7.0, 1e-12));
    CHECK(std::isnan(series.samples[5]));
    CHECK(contains(findings, "gap-bridged"));
    CHECK(contains(findings, "gap"));
}

TEST_CASE("uneven stamps go onto an even grid at the mean interval", "[angle][reading_repair]") {
    // Milliseconds rounded from 300 Hz: 3, 3, 4 ms. The median alone would give 333 Hz.
    std::vector<double> time_s(301), samples(301);
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        time_s[i] = std::floor(static_cast<double>(i) * 10.0 / 3.0) / 1000.0;
        samples[i] = 12.0 + 30.0 * time_s[i];
    }
    Findings findings;
    const EvenSeries series = even(TimeBase::stamped(time_s), samples, findings);
    CHECK_THAT(series.rate.value(), WithinRel(300.0, 1e-9));
    CHECK(series.samples.size() == 301);
    for (std::size_t i = 0; i < 300; ++i) {
        REQUIRE_THAT(series.samples[i], WithinAbs(12.0 + 30.0 * series.time(i).value(), 1e-9));
    }
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "irregular-sampling");
}

TEST_CASE("a hole in the stamps is a gap whether or not cells stand in it", "[angle][reading_repair]") {
    std::vector<double> time_s, samples;
    for (int i = 0; i < 300; ++i) {
        if (i < 100 || i >= 140) {
            time_s.push_back(0.01 * i);
            samples.push_back(i == 50 || i == 51 || (i >= 200 && i < 230) ? missing : 0.25 * i);
        }
    }
    Findings findings;
    const EvenSeries series = even(TimeBase::stamped(time_s), samples, findings);
    CHECK_THAT(series.rate.value(), WithinRel(100.0, 1e-9));
    CHECK_THAT(series.samples[51], WithinAbs(0.25 * 51.0, 1e-6));
    CHECK(std::isnan(series.samples[120]));
    CHECK(std::isnan(series.samples[215]));
    CHECK_THAT(series.samples[250], WithinAbs(0.25 * 250.0, 1e-6));
    REQUIRE(findings.size() == 2);
    CHECK_THAT(findings[0].text, ContainsSubstring("1 gap of 0.020 s"));
    CHECK_THAT(findings[1].text,
               ContainsSubstring("0.40 s without samples at 1.00 s, 0.30 s without samples at 2.00 s"));
}

TEST_CASE("evenly stamped samples are taken as they are and nothing is said", "[angle][reading_repair]") {
    std::vector<double> time_s(100), samples(100);
    for (std::size_t i = 0; i < 100; ++i) {
        time_s[i] = 0.1 * static_cast<double>(i) + 5.0;
        samples[i] = std::sin(static_cast<double>(i));
    }
    Findings findings;
    const EvenSeries series = even(TimeBase::stamped(time_s), samples, findings);
    CHECK(findings.empty());
    REQUIRE(series.samples.size() == 100);
    for (std::size_t i = 0; i < 100; ++i) {
        CHECK_THAT(series.samples[i], WithinAbs(samples[i], 1e-9));
    }
}

TEST_CASE("too few samples and an absurd gap are refused", "[angle][reading_repair]") {
    Findings findings;
    CHECK_THROWS_AS(even(TimeBase::stamped({0.0, 0.1, 0.2}), {missing, 4.0, missing}, findings), Failure);
    CHECK_THROWS_AS(even(TimeBase::regular(Seconds(0.0), Hertz(10.0), 0), {}, findings), Failure);
    try {
        (void)even(TimeBase::stamped({0.0, 0.001, 0.002, 864000.0}), {1.0, 2.0, 3.0, 4.0}, findings);
        FAIL("was accepted");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "gap-too-long");
    }
}
