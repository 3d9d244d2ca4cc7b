#include <jointrom/angle/prepare_angle.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <random>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// Two seconds at neutral, then `repetitions` of 120 deg (raised cosine, 2.5 s each with 0.5 s rest), two seconds rest.
double true_angle_deg(double t, int repetitions = 3) {
    const double phase_s = std::fmod(t - 2.0, 3.0);
    const bool moves = t >= 2.0 && t < 2.0 + 3.0 * repetitions && phase_s < 2.5;
    return moves ? 60.0 * (1.0 - std::cos(2.0 * std::numbers::pi * phase_s / 2.5)) : 0.0;
}

struct Sensor {
    double zero = 176.2;
    double per_deg = -1.0;
    double noise = 0.3;  ///< half-width of uniform noise
    std::string unit = "deg";
    unsigned seed = 3;
};

Channel logged(const Sensor& sensor, double rate_hz = 100.0, double length_s = 13.0) {
    std::mt19937 engine(sensor.seed);
    Channel channel;
    channel.name = "Goniometer";
    channel.unit = sensor.unit;
    const auto count = static_cast<std::size_t>(length_s * rate_hz);
    for (std::size_t i = 0; i < count; ++i) {
        const double noise = 2.0 * static_cast<double>(engine()) / 4294967296.0 - 1.0;
        const double t = static_cast<double>(i) / rate_hz;
        channel.samples.push_back(sensor.zero + sensor.per_deg * true_angle_deg(t) + sensor.noise * noise);
    }
    channel.times = TimeBase::regular(Seconds(0.0), Hertz(rate_hz), count);
    return channel;
}

struct Prepared {
    AngleTrace trace;
    Findings findings;
};

Prepared prepared(const Channel& channel, PreparationOptions options = {.motion = joint_motion("elbow")}) {
    Findings findings;
    AngleTrace trace = prepare_angle(channel, options, findings);
    return {std::move(trace), std::move(findings)};
}

std::string failure_code(const Channel& channel, const PreparationOptions& options) {
    try {
        (void)prepared(channel, options);
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "accepted";
}

double largest_error_deg(const AngleTrace& trace) {
    double largest = 0.0;
    for (std::size_t i = 0; i < trace.size(); ++i) {
        if (std::isfinite(trace.angle_deg()[i])) {
            largest = std::max(largest, std::abs(trace.angle_deg()[i] - true_angle_deg(trace.time(i).value())));
        }
    }
    return largest;
}

std::vector<std::string> codes(const Findings& findings) {
    std::vector<std::string> result;
    for (const Finding& finding : findings) {
        result.emplace_back(finding.code());
    }
    std::ranges::sort(result);
    return result;
}

}  // namespace

TEST_CASE("an untouched recording becomes the joint's angle", "[angle][prepare_angle]") {
    const double rate_hz = GENERATE(20.0, 50.0, 100.0, 1000.0, 10000.0);
    CAPTURE(rate_hz);
    const auto [trace, findings] = prepared(logged({}, rate_hz));
    CHECK(largest_error_deg(trace) < 0.8);
    CHECK(trace.rate() == Hertz(rate_hz));
    CHECK(trace.pieces().size() == 1);
    CHECK(trace.lowpass() == Hertz(6.0));
    CHECK(codes(findings) == std::vector<std::string>{"direction-inferred", "neutral-assumed", "uncalibrated"});
    CHECK(trace.steps().size() == 3);
    CHECK_THAT(trace.uncertainty().linearity.value(), WithinRel(2.0 / std::sqrt(3.0), 1e-12));
    CHECK_FALSE(trace.uncertainty().gain_is_measured);
    CHECK_FALSE(trace.uncertainty().linearity_is_measured);
    CHECK(trace.uncertainty().zero.value() < 0.2);
    // Uniform noise of half-width 0.3 has an SD of 0.173; what lies below 6 Hz is not taken out.
    CHECK_THAT(trace.uncertainty().noise.value(), WithinAbs(0.173, 0.1));
}

TEST_CASE("velocity is that of the true movement", "[angle][prepare_angle]") {
    const auto [trace, findings] = prepared(logged({.noise = 0.0}, 200.0));
    // Raised cosine: peak speed pi f A = pi 120 / 2.5 deg/s, less what the 6 Hz filter takes at 0.4 Hz (below 0.1 %).
    CHECK_THAT(*std::ranges::max_element(trace.velocity_deg_s()), WithinRel(std::numbers::pi * 48.0, 0.002));
}

TEST_CASE("adding an offset to the reading changes nothing after zeroing", "[angle][prepare_angle]") {
    const auto reference = prepared(logged({}));
    const double offset_deg = GENERATE(-190.0, -3.7, 25.0, 720.0);
    CAPTURE(offset_deg);
    const auto moved = prepared(logged({.zero = 176.2 + offset_deg}));
    for (std::size_t i = 0; i < reference.trace.size(); ++i) {
        REQUIRE_THAT(moved.trace.angle_deg()[i], WithinAbs(reference.trace.angle_deg()[i], 1e-9));
    }
}

TEST_CASE("a sensor worn mirrored gives the same trace with the sign turned", "[angle][prepare_angle]") {
    const Channel channel = logged({});
    Channel mirrored = channel;
    for (double& reading : mirrored.samples) {
        reading = -reading;
    }
    for (const JointMotion& motion : {joint_motion("elbow"), unknown_joint_motion()}) {
        const auto one = prepared(channel, {.motion = motion, .mirror = true});
        const auto other = prepared(mirrored, {.motion = motion, .mirror = false});
        const auto inferred = prepared(mirrored, {.motion = motion});
        CHECK(one.trace.reading_sign() == -other.trace.reading_sign());
        CHECK(other.trace.reading_sign() == 1);
        for (std::size_t i = 0; i < one.trace.size(); ++i) {
            REQUIRE_THAT(other.trace.angle_deg()[i], WithinAbs(one.trace.angle_deg()[i], 1e-9));
            REQUIRE_THAT(inferred.trace.angle_deg()[i], WithinAbs(one.trace.angle_deg()[i], 1e-9));
        }
        CHECK_FALSE(contains(one.findings, "direction-inferred"));
    }
}

TEST_CASE("an elbow that is said to extend by 120 deg is reported and not turned round", "[angle][prepare_angle]") {
    const auto [trace, findings] = prepared(logged({}), {.motion = joint_motion("elbow"), .mirror = false});
    CHECK(contains(findings, "direction-implausible"));
    CHECK(*std::ranges::min_element(trace.angle_deg()) < -115.0);
}

TEST_CASE("a calibrated voltage becomes an angle with the calibration's uncertainty", "[angle][prepare_angle]") {
    std::vector<CalibrationPoint> points;
    const double error_deg[] = {0.4, -0.3, -0.2, -0.3, 0.4};
    for (int i = 0; i < 5; ++i) {
        points.push_back({.known_deg = 30.0 * i + error_deg[i], .reading = 0.645 + 0.0125 * 30.0 * i});
    }
    Findings findings;
    const Calibration calibration =
        fit_calibration(points, {.unit = "V", .motion = joint_motion("elbow"), .side = Side::right}, findings);
    const Sensor sensor{.zero = 0.70, .per_deg = 0.0125, .noise = 0.004, .unit = "V"};
    const PreparationOptions options{.motion = joint_motion("elbow"), .side = Side::right, .calibration = calibration};

    const auto right = prepared(logged(sensor), options);
    CHECK(largest_error_deg(right.trace) < 1.0);
    CHECK(codes(right.findings) == std::vector<std::string>{"neutral-assumed"});
    CHECK(right.trace.uncertainty().gain_is_measured);
    CHECK(right.trace.uncertainty().gain_relative == calibration.u_gain_deg_per_unit / calibration.gain_deg_per_unit);
    CHECK(right.trace.uncertainty().linearity == Degrees(calibration.residual_sd_deg));
    CHECK(right.trace.uncertainty().linearity_dof == 3.0);

    PreparationOptions left = options;
    left.side = Side::left;
    const auto mirrored = prepared(logged({.zero = 2.13, .per_deg = -0.0125, .noise = 0.004, .unit = "V"}), left);
    CHECK(largest_error_deg(mirrored.trace) < 1.0);
    CHECK(contains(mirrored.findings, "calibration-side-changed"));
    CHECK_FALSE(contains(mirrored.findings, "calibration-extrapolated"));

    Channel millivolts = logged({.zero = 700.0, .per_deg = 12.5, .noise = 4.0, .unit = "mV"});
    CHECK(largest_error_deg(prepared(millivolts, options).trace) < 1.0);
    CHECK(contains(prepared(logged({.zero = 1.4, .per_deg = 0.0125, .noise = 0.0, .unit = "V"}), options).findings,
                   "calibration-extrapolated"));
    CHECK(failure_code(logged(sensor), {.motion = joint_motion("elbow")}) == "calibration-needed");
    CHECK(failure_code(logged({}), options) == "calibration-unit");
}

TEST_CASE("radians are converted and a stated unit goes before the heading's", "[angle][prepare_angle]") {
    const double radian = std::numbers::pi / 180.0;
    const Sensor sensor{.zero = 3.07, .per_deg = -radian, .noise = 0.002, .unit = "rad"};
    CHECK(largest_error_deg(prepared(logged(sensor)).trace) < 0.8);
    Channel unnamed = logged(sensor);
    unnamed.unit.clear();
    PreparationOptions options{.motion = joint_motion("elbow")};
    options.angle_unit = "rad";
    CHECK(largest_error_deg(prepared(unnamed, options).trace) < 0.8);
    CHECK(contains(prepared(unnamed).findings, "unit-assumed"));
}

TEST_CASE("a reading that wraps at 360 is joined up", "[angle][prepare_angle]") {
    Channel channel = logged({.zero = 262.3, .per_deg = 1.0});
    for (double& reading : channel.samples) {
        reading = std::fmod(reading, 360.0);
    }
    const auto [trace, findings] = prepared(channel);
    CHECK(largest_error_deg(trace) < 0.8);
    CHECK(contains(findings, "wrap-around"));
}

TEST_CASE("a given zero is found again on another turn of the sensor", "[angle][prepare_angle]") {
    Channel channel = logged({.zero = 358.0, .per_deg = 1.0});
    const auto [trace, findings] =
        prepared(channel, {.motion = joint_motion("elbow"),
                           .neutral = {.rule = NeutralChoice::Rule::value, .value = Degrees(-2.0)}});
    CHECK(largest_error_deg(trace) < 0.8);
}

TEST_CASE("gaps are never bridged silently", "[angle][prepare_angle]") {
    Channel channel = logged({});
    std::fill_n(channel.samples.begin() + 350, 45, missing);
    std::fill_n(channel.samples.begin() + 700, 4, missing);
    const auto [trace, findings] = prepared(channel);
    REQUIRE(trace.pieces().size() == 2);
    CHECK(trace.pieces()[0] == SampleSpan{0, 350});
    CHECK(trace.pieces()[1] == SampleSpan{395, 1300});
    CHECK(std::isnan(trace.angle_deg()[370]));
    CHECK(std::isnan(trace.velocity_deg_s()[370]));
    CHECK(largest_error_deg(trace) < 1.0);
    CHECK(contains(findings, "gap"));
    CHECK(contains(findings, "gap-bridged"));
}

TEST_CASE("spikes are reported and kept out of the peaks unless they are wanted", "[angle][prepare_angle]") {
    Channel channel = logged({});
    channel.samples[325] = 666.0;  // at the top of a movement
    channel.samples[600] = 0.0;
    const auto clean = prepared(channel);
    CHECK(contains(clean.findings, "spikes"));
    CHECK(contains(clean.findings, "gap-bridged"));
    CHECK(largest_error_deg(clean.trace) < 0.8);
    const auto kept = prepared(channel, {.motion = joint_motion("elbow"), .keep_spikes = true});
    CHECK(contains(kept.findings, "spikes"));
    CHECK(largest_error_deg(kept.trace) > 30.0);
}

TEST_CASE("the low-pass can be chosen left out and is not forced on slow logging", "[angle][prepare_angle]") {
    const auto off = prepared(logged({}), {.lowpass = {.rule = LowpassChoice::Rule::off}});
    CHECK_FALSE(off.trace.lowpass().is_set());
    CHECK(std::ranges::equal(off.trace.angle_deg(), off.trace.unfiltered_deg()));
    CHECK_THAT(off.trace.uncertainty().noise.value(), WithinAbs(0.173, 0.03));
    const auto slow = prepared(logged({.noise = 0.1}, 10.0));
    CHECK(contains(slow.findings, "filter-lowered"));
    CHECK_FALSE(slow.trace.lowpass().is_set());
    const auto two_hertz = prepared(logged({.noise = 0.1}, 2.0));
    CHECK(contains(two_hertz.findings, "filter-lowered"));
    CHECK(largest_error_deg(two_hertz.trace) < 0.3);
    const auto automatic = prepared(logged({}), {.lowpass = {.rule = LowpassChoice::Rule::automatic}});
    CHECK(automatic.trace.lowpass().is_set());
    CHECK(failure_code(logged({}), {.lowpass = {.cutoff = Hertz(0.0)}}) == "cutoff-not-positive");
}

TEST_CASE("a window cuts the trace and the neutral window may lie outside it", "[angle][prepare_angle]") {
    const auto [trace, findings] =
        prepared(logged({}), {.motion = joint_motion("elbow"),
                              .neutral = {.rule = NeutralChoice::Rule::window, .window = {Seconds(0.5), Seconds(1.5)}},
                              .window = {Seconds(2.5), Seconds(8.0)}});
    CHECK_THAT(trace.start().value(), WithinAbs(2.5, 1e-9));
    CHECK(trace.size() == 551);
    CHECK(largest_error_deg(trace) < 0.8);
    CHECK(failure_code(logged({}), {.window = {Seconds(20.0), Seconds(30.0)}}) == "window-empty");
}

TEST_CASE("the neutral posture can come from a recording of its own", "[angle][prepare_angle]") {
    Channel standing = logged({.zero = 176.2, .per_deg = 0.0, .seed = 8}, 100.0, 4.0);
    Findings findings;
    const NeutralChoice neutral =
        neutral_of_recording(standing, {.motion = joint_motion("elbow")}, "standing.csv", findings);
    CHECK(neutral.rule == NeutralChoice::Rule::value);
    CHECK_THAT(neutral.value.value(), WithinAbs(176.2, 0.1));
    CHECK(neutral.u.value() > 0.0);
    CHECK_FALSE(contains(findings, "neutral-not-still"));
    const auto [trace, more] = prepared(logged({}), {.motion = joint_motion("elbow"), .neutral = neutral});
    CHECK(largest_error_deg(trace) < 0.8);
    CHECK_FALSE(contains(more, "neutral-assumed"));

    Channel swinging = logged({}, 100.0, 4.4);
    swinging.samples.erase(swinging.samples.begin(), swinging.samples.begin() + 210);
    swinging.times = TimeBase::regular(Seconds(0.0), Hertz(100.0), swinging.samples.size());
    findings.clear();
    (void)neutral_of_recording(swinging, {}, "swinging.csv", findings);
    CHECK(contains(findings, "neutral-not-still"));
}

TEST_CASE("a sensor that slips during the recording is noticed", "[angle][prepare_angle]") {
    Channel channel = logged({});
    for (std::size_t i = 650; i < channel.samples.size(); ++i) {
        channel.samples[i] -= 9.0;
    }
    const auto [trace, findings] = prepared(channel);
    CHECK(contains(findings, "resting-level-drift"));
    CHECK_FALSE(contains(prepared(logged({})).findings, "resting-level-drift"));
}

TEST_CASE("an angle beyond the joint's reach in both directions is named", "[angle][prepare_angle]") {
    const auto [trace, findings] = prepared(logged({.per_deg = -1.9}));
    CHECK(contains(findings, "angle-implausible"));
    CHECK_FALSE(contains(findings, "direction-implausible"));
}

TEST_CASE("constant short missing and empty recordings", "[angle][prepare_angle]") {
    const auto [trace, findings] = prepared(logged({.per_deg = 0.0, .noise = 0.0}));
    CHECK_THAT(*std::ranges::max_element(trace.angle_deg()), WithinAbs(0.0, 1e-9));
    CHECK(trace.uncertainty().zero.value() < 1e-9);

    Channel empty = logged({}, 100.0, 0.0);
    CHECK(failure_code(empty, {}) == "too-short");
    CHECK(failure_code(logged({}, 100.0, 0.02), {}) == "too-short");
    CHECK(failure_code(logged({}, 100.0, 0.04), {}) == "accepted");
    Channel blank = logged({});
    std::ranges::fill(blank.samples, missing);
    CHECK(failure_code(blank, {}) == "too-short");
    blank.samples[500] = std::numeric_limits<double>::infinity();
    CHECK(failure_code(blank, {.motion = joint_motion("knee")}) == "too-short");
}

TEST_CASE("uneven stamps are put on an even time base", "[angle][prepare_angle]") {
    Channel channel;
    channel.unit = "deg";
    std::vector<double> time_s;
    for (int i = 0; i < 1300; ++i) {
        time_s.push_back(0.01 * i + (i % 3 == 1 ? 0.003 : 0.0));
        channel.samples.push_back(176.2 - true_angle_deg(time_s.back()));
    }
    channel.times = TimeBase::stamped(time_s);
    const auto [trace, findings] = prepared(channel);
    CHECK(contains(findings, "irregular-sampling"));
    CHECK_THAT(trace.rate().value(), WithinRel(100.0, 1e-3));
    CHECK(largest_error_deg(trace) < 0.5);
}
