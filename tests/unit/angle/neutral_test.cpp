#include <jointrom/angle/neutral.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

using namespace jointrom;

namespace {

/// Held for 2 s at `rest_deg`, then swung three times by `swing_deg` without rest, at 50 Hz, with a little ripple.
std::vector<double> recording(double rest_deg, double swing_deg) {
    std::vector<double> angle_deg(500);
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        const double t = static_cast<double>(i) / 50.0;
        const double swing = t < 2.0 ? 0.0 : 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * (t - 2.0) * 3.0 / 8.0);
        angle_deg[i] = rest_deg + swing_deg * swing + 0.2 * std::sin(17.0 * static_cast<double>(i * i));
    }
    return angle_deg;
}

struct Found {
    Neutral neutral;
    Findings findings;
};

Found found(const std::vector<double>& angle_deg, const JointMotion& motion, const NeutralChoice& choice = {},
            std::optional<int> sign = std::nullopt) {
    Found result;
    const std::vector<SampleSpan> still = still_stretches(angle_deg, Hertz(50.0));
    const NeutralContext context{.rate = Hertz(50.0),
                                 .start = Seconds(10.0),
                                 .used = {0, angle_deg.size()},
                                 .still = still,
                                 .motion = motion,
                                 .sign = sign};
    result.neutral = find_neutral(angle_deg, context, choice, result.findings);
    return result;
}

}  // namespace

TEST_CASE("zero is put at the first still posture and said so", "[angle][neutral]") {
    const auto [neutral, findings] = found(recording(176.2, -130.0), joint_motion("elbow"));
    CHECK_THAT(neutral.zero.value(), WithinAbs(176.2, 0.3));
    CHECK(neutral.u.value() > 0.0);
    CHECK(neutral.u.value() < 0.3);
    CHECK(neutral.sign == 0);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "neutral-assumed");
    CHECK_THAT(findings[0].text, ContainsSubstring("10.00-12."));
}

TEST_CASE("a sensor that shows joint angles already keeps its zero", "[angle][neutral]") {
    // Seated: the knee rests bent and is straightened, with either sign of the sensor.
    const auto kept = found(recording(82.0, -75.0), joint_motion("knee"));
    CHECK(kept.neutral.zero == Degrees(0.0));
    CHECK(kept.neutral.sign == 1);
    CHECK_FALSE(kept.neutral.u.is_set());
    REQUIRE(kept.findings.size() == 1);
    CHECK(kept.findings[0].code() == "neutral-sensor-zero");
    CHECK_THAT(kept.findings[0].text, ContainsSubstring("knee"));
    const auto turned = found(recording(-82.0, 75.0), joint_motion("knee"));
    CHECK(turned.neutral.zero == Degrees(0.0));
    CHECK(turned.neutral.sign == -1);
    const auto full_turn = found(recording(278.0, 75.0), joint_motion("knee"));
    CHECK(full_turn.neutral.zero == Degrees(360.0));
    CHECK(full_turn.neutral.sign == -1);
}

TEST_CASE("a recording that starts in the middle of a movement has its zero at a straight posture",
          "[angle][neutral]") {
    // 3 s of flexing without a rest, 2 s held at the top, then back and 2 s at rest: the top is held first.
    std::vector<double> angle_deg;
    for (int i = 0; i < 450; ++i) {
        const double t = i / 50.0;
        const double flexed = t < 3.0 ? t / 3.0 : t < 5.0 ? 1.0 : t < 7.0 ? (7.0 - t) / 2.0 : 0.0;
        angle_deg.push_back(178.4 - 118.0 * flexed);
    }
    const auto [neutral, findings] = found(angle_deg, unknown_joint_motion());
    CHECK_THAT(neutral.zero.value(), WithinAbs(178.4, 0.3));
    CHECK(contains(findings, "neutral-suspect"));
}

TEST_CASE("the sensor's zero is not believed against a stated sign or an impossible range", "[angle][neutral]") {
    const auto stated = found(recording(82.0, -75.0), joint_motion("knee"), {}, -1);
    CHECK_THAT(stated.neutral.zero.value(), WithinAbs(82.0, 0.3));
    CHECK(contains(stated.findings, "neutral-assumed"));
    const auto beyond = found(recording(100.0, 110.0), joint_motion("knee"));
    CHECK_THAT(beyond.neutral.zero.value(), WithinAbs(100.0, 0.3));
    const auto by_chance = found(recording(262.3, 120.0), joint_motion("elbow"));  // -98 to 22 deg, turned: -22 to 98
    CHECK_THAT(by_chance.neutral.zero.value(), WithinAbs(262.3, 0.3));
    const auto unknown = found(recording(82.0, -75.0), unknown_joint_motion());
    CHECK_THAT(unknown.neutral.zero.value(), WithinAbs(82.0, 0.3));
}

TEST_CASE("a posture far from zero that fits with both signs is suspect", "[angle][neutral]") {
    const auto [neutral, findings] = found(recording(50.0, -90.0), joint_motion("neck", "rotation"));
    CHECK_THAT(neutral.zero.value(), WithinAbs(50.0, 0.3));
    CHECK(contains(findings, "neutral-suspect"));
    CHECK(contains(findings, "neutral-assumed"));
}

TEST_CASE("without a still posture the sensor keeps its zero", "[angle][neutral]") {
    std::vector<double> angle_deg(500);
    for (std::size_t i = 0; i < angle_deg.size(); ++i) {
        angle_deg[i] = 60.0 - 55.0 * std::cos(0.09 * static_cast<double>(i));
    }
    const auto [neutral, findings] = found(angle_deg, joint_motion("elbow"));
    CHECK(neutral.zero == Degrees(0.0));
    CHECK(neutral.sign == 0);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "neutral-sensor-zero");
}

TEST_CASE("a stated window is used and a moving one is named", "[angle][neutral]") {
    const std::vector<double> angle_deg = recording(176.2, -130.0);
    const auto still = found(angle_deg, joint_motion("elbow"),
                             {.rule = NeutralChoice::Rule::window, .window = {Seconds(10.5), Seconds(11.5)}});
    CHECK_THAT(still.neutral.zero.value(), WithinAbs(176.2, 0.1));
    CHECK(still.findings.empty());
    CHECK_THAT(still.neutral.step, ContainsSubstring("10.50-11.52 s"));
    const auto moving = found(angle_deg, joint_motion("elbow"),
                              {.rule = NeutralChoice::Rule::window, .window = {Seconds(11.5), Seconds(13.0)}});
    REQUIRE(moving.findings.size() == 1);
    CHECK(moving.findings[0].code() == "neutral-not-still");
    CHECK(moving.neutral.u.value() > 10.0);
    try {
        (void)found(angle_deg, joint_motion("elbow"),
                    {.rule = NeutralChoice::Rule::window, .window = {Seconds(0.0), Seconds(2.0)}});
        FAIL("was accepted");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "neutral-window-empty");
        CHECK_THAT(failure.advice(), ContainsSubstring("10.00 to 20.00 s"));
    }
}

TEST_CASE("a given reading is zero with its own uncertainty", "[angle][neutral]") {
    const auto [neutral, findings] = found(recording(176.2, -130.0), joint_motion("elbow"),
                                           {.rule = NeutralChoice::Rule::value,
                                            .value = Degrees(178.5),
                                            .u = Degrees(0.4),
                                            .degrees_of_freedom = 12.0,
                                            .source = "standing.csv"});
    CHECK(neutral.zero == Degrees(178.5));
    CHECK(neutral.u == Degrees(0.4));
    CHECK(neutral.degrees_of_freedom == 12.0);
    CHECK_THAT(neutral.step, ContainsSubstring("standing.csv"));
    CHECK(findings.empty());
}

TEST_CASE("a coarse sensor that shows one value in the posture is uncertain by its resolution", "[angle][neutral]") {
    std::vector<double> coarse = recording(176.2, -130.0);
    for (double& sample : coarse) {
        sample = 0.5 * std::round(sample / 0.5);
    }
    std::fill_n(coarse.begin(), 100, 176.0);
    const NeutralChoice choice{.rule = NeutralChoice::Rule::window, .window = {Seconds(10.0), Seconds(11.9)}};
    const auto [neutral, findings] = found(coarse, joint_motion("elbow"), choice);
    CHECK(neutral.zero == Degrees(176.0));
    CHECK_THAT(neutral.u.value(), WithinRel(0.5 / std::sqrt(12.0), 1e-9));  // JCGM 100:2008, F.2.2.1
}
