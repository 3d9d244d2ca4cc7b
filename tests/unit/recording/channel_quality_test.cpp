#include <jointrom/recording/channel_quality.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>
#include <string>
#include <vector>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// Ten bends of `size` from `rest`, each 2 s long with 1 s of rest behind it, rounded to hundredths.
std::vector<double> bends(double rate_hz = 100.0, double noise = 0.2, double rest = 12.0, double size = 90.0) {
    std::mt19937 random(31);
    std::normal_distribution<double> normal;
    std::vector<double> samples;
    for (std::size_t i = 0; i < static_cast<std::size_t>(30.0 * rate_hz); ++i) {
        const double phase = std::fmod(static_cast<double>(i) / rate_hz, 3.0);
        const double bend = phase < 2.0 ? size / 2.0 * (1.0 - std::cos(std::numbers::pi * phase)) : 0.0;
        samples.push_back(std::round(100.0 * (rest + bend + noise * normal(random))) / 100.0);
    }
    return samples;
}

Channel channel_of(std::vector<double> samples, const std::string& unit = "deg", double rate_hz = 100.0,
                   ChannelRole role = ChannelRole::angle) {
    Channel channel;
    channel.name = "Elbow";
    channel.unit = unit;
    channel.role = role;
    channel.times = TimeBase::regular(Seconds(0.0), Hertz(rate_hz), samples.size());
    channel.samples = std::move(samples);
    return channel;
}

std::vector<std::string> codes_of(const Findings& findings) {
    std::vector<std::string> codes;
    for (const Finding& finding : findings) {
        codes.emplace_back(finding.code());
    }
    return codes;
}

std::vector<std::string> findings_of(const Channel& channel) {
    return codes_of(channel_quality(channel).findings);
}

using Codes = std::vector<std::string>;

template <typename Change>
std::vector<double> changed(std::vector<double> samples, Change change) {
    std::ranges::transform(samples, samples.begin(), change);
    return samples;
}

}  // namespace

TEST_CASE("a sound channel has facts and no findings", "[recording][channel_quality]") {
    std::vector<double> samples = bends();
    samples[100] = samples[101] = missing;
    const ChannelQuality quality = channel_quality(channel_of(samples));
    CHECK(quality.findings.empty());
    CHECK(quality.count == 3000);
    CHECK(quality.missing == 2);
    CHECK_THAT(quality.min, WithinAbs(11.5, 0.3));
    CHECK_THAT(quality.max, WithinAbs(102.4, 0.3));
    CHECK_THAT(quality.noise_sd, WithinRel(0.2, 0.1));
    CHECK_THAT(quality.resolution, WithinAbs(0.01, 1e-9));
    CHECK(quality.repeated_share < 0.05);
    CHECK(quality.full_turns == 0);
    CHECK(quality.spikes == 0);
    CHECK_FALSE(quality.filled_up.has_value());
}

TEST_CASE("the median of an even number of samples lies between the middle two", "[recording][channel_quality]") {
    CHECK(channel_quality(channel_of({4.0, 1.0, missing, 9.0, 2.0})).median == 3.0);
    CHECK(channel_quality(channel_of({4.0, 1.0, 9.0})).median == 4.0);
}

TEST_CASE("cut off tops and bottoms are found with their level and number", "[recording][channel_quality]") {
    const Findings top =
        channel_quality(channel_of(changed(bends(), [](double x) { return std::min(x, 85.0); }))).findings;
    REQUIRE(codes_of(top) == Codes{"saturated"});
    CHECK_THAT(top.front().text, ContainsSubstring("stays at 85 deg") && ContainsSubstring("10 places"));
    CHECK(findings_of(channel_of(changed(bends(), [](double x) { return std::max(x, 30.0); }))) == Codes{"saturated"});
    const auto counts = changed(bends(), [](double x) { return std::min(1023.0, std::round(12.0 * x)); });
    CHECK(findings_of(channel_of(counts, "counts")) == Codes{"saturated"});
    const auto slow = changed(bends(10.0), [](double x) { return std::min(x, 80.0); });
    CHECK(findings_of(channel_of(slow, "deg", 10.0)) == Codes{"saturated"});
}

TEST_CASE("a rest without noise is not taken for a cut off reading", "[recording][channel_quality]") {
    for (const double rate_hz : {5.0, 10.0, 50.0, 100.0, 1000.0}) {
        for (const double rest : {0.0, 12.0}) {
            CAPTURE(rate_hz, rest);
            CHECK(findings_of(channel_of(bends(rate_hz, 0.0, rest), "deg", rate_hz)).empty());
        }
    }
}

TEST_CASE("a channel that shows one value, or freezes amid noise, is stuck", "[recording][channel_quality]") {
    CHECK(findings_of(channel_of(std::vector<double>(500, 57.3))) == Codes{"stuck"});
    std::vector<double> frozen = bends();
    std::fill(frozen.begin() + 1250, frozen.begin() + 1400, frozen[1250]);
    const Findings findings = channel_quality(channel_of(frozen)).findings;
    REQUIRE(codes_of(findings) == Codes{"stuck"});
    CHECK_THAT(findings.front().text, ContainsSubstring("for 1.49 s from 12.500 s on"));
}

TEST_CASE("single samples far off are spikes, fast movement at a slow rate is none", "[recording][channel_quality]") {
    std::vector<double> spiky = bends();
    spiky[250] += 40.0;
    spiky[1830] -= 25.0;
    const ChannelQuality quality = channel_quality(channel_of(spiky));
    CHECK(quality.spikes == 2);
    CHECK(codes_of(quality.findings) == Codes{"spikes"});
    CHECK(codes_of(angle_findings(channel_of(spiky))).empty());
    CHECK(channel_quality(channel_of(bends(3.6), "deg", 3.6)).spikes == 0);
    CHECK(findings_of(channel_of(spiky, "mV", 100.0, ChannelRole::emg)).empty());
}

TEST_CASE("full turns are counted in degrees, radians and counts", "[recording][channel_quality]") {
    const auto wrapped = changed(bends(), [](double x) { return x > 60.0 ? x - 60.0 : x + 300.0; });
    CHECK(channel_quality(channel_of(wrapped)).full_turns >= 20);
    CHECK(findings_of(channel_of(wrapped)) == Codes{"wrap-around"});
    const auto radians = changed(wrapped, [](double x) { return x * std::numbers::pi / 180.0; });
    CHECK(channel_quality(channel_of(radians, "rad")).full_turns >= 20);
    const auto counts = changed(bends(), [](double x) { return std::fmod(std::round(40.0 * x) + 2000.0, 4096.0); });
    CHECK(channel_quality(channel_of(counts, "counts")).full_turns >= 20);
    CHECK(channel_quality(channel_of(bends(), "counts")).full_turns == 0);
}

TEST_CASE("a value that stands for missing samples is suspected", "[recording][channel_quality]") {
    for (const double code : {666.0, -999.0, 32767.0}) {
        CAPTURE(code);
        std::vector<double> samples = bends();
        samples[400] = samples[401] = samples[2000] = code;
        const Findings findings = angle_findings(channel_of(samples));
        REQUIRE(codes_of(findings) == Codes{"missing-suspect"});
        CHECK_THAT(findings.front().text, ContainsSubstring("in 3 samples") && ContainsSubstring("4.000 s"));
    }
    std::vector<double> zeros = bends(100.0, 0.2, 120.0);
    zeros[400] = zeros[401] = zeros[1750] = 0.0;
    CHECK(codes_of(angle_findings(channel_of(zeros))) == Codes{"missing-suspect"});
}

TEST_CASE("postures held without noise are no missing samples", "[recording][channel_quality]") {
    std::vector<double> samples;
    for (const double posture : {0.0, 30.0, 60.0, 90.0, 120.0}) {
        samples.insert(samples.end(), 200, posture);
    }
    CHECK(findings_of(channel_of(samples)).empty());
}

TEST_CASE("readings that do not look like their unit are doubted", "[recording][channel_quality]") {
    const auto radians = changed(bends(), [](double x) { return x * std::numbers::pi / 180.0; });
    CHECK(findings_of(channel_of(radians)) == Codes{"unit-suspect"});
    CHECK(findings_of(channel_of(radians, "")) == Codes{"unit-suspect"});
    CHECK(findings_of(channel_of(radians, "rad")).empty());
    const auto volts = changed(bends(), [](double x) { return 0.3 + 0.04 * x; });
    CHECK_THAT(channel_quality(channel_of(volts)).findings.front().text, ContainsSubstring("look like volts"));
    CHECK(findings_of(channel_of(volts, "V")).empty());
    const auto counts = changed(bends(), [](double x) { return std::round(7.0 * x); });
    CHECK(findings_of(channel_of(counts, "")) == Codes{"unit-suspect"});
    CHECK(findings_of(channel_of(bends(), "rad")) == Codes{"unit-suspect"});
    // A joint held still near zero says nothing about its unit.
    CHECK(findings_of(channel_of(bends(100.0, 0.2, 0.4, 0.0))).empty());
}

TEST_CASE("an uneven clock is described", "[recording][channel_quality]") {
    Channel channel = channel_of(bends());
    std::vector<double> time_s;
    for (std::size_t i = 0; i < channel.samples.size(); ++i) {
        time_s.push_back(0.01 * static_cast<double>(i) + (i % 3 == 0 ? 0.004 : 0.0));
    }
    channel.times = TimeBase::stamped(time_s);
    CHECK(findings_of(channel) == Codes{"irregular-sampling"});
}

TEST_CASE("channels with little or nothing in them have no findings", "[recording][channel_quality]") {
    CHECK(channel_quality(channel_of({})).findings.empty());
    CHECK(channel_quality(channel_of({7.0})).findings.empty());
    const ChannelQuality nothing = channel_quality(channel_of({missing, missing, missing}));
    CHECK(nothing.missing == 3);
    CHECK(std::isnan(nothing.min));
    CHECK(nothing.findings.empty());
    CHECK(channel_quality(channel_of({1.0, 2.0})).findings.empty());
}
