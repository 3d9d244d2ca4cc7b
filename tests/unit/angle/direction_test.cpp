#include <jointrom/angle/direction.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

Direction inferred(const JointMotion& motion, double low_deg, double high_deg, std::string_view expected_code) {
    Findings findings;
    const Direction direction = infer_direction(motion, Degrees(low_deg), Degrees(high_deg), findings);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == expected_code);
    CHECK_THAT(findings[0].text, ContainsSubstring("mirror"));
    return direction;
}

Calibration elbow_calibration(Side side) {
    Calibration calibration;
    calibration.joint = "elbow";
    calibration.motion = "flexion-extension";
    calibration.side = side;
    calibration.rises_with = "flexion";
    return calibration;
}

}  // namespace

TEST_CASE("the sign is the one with which the joint can move", "[angle][direction]") {
    const JointMotion& elbow = joint_motion("elbow");
    CHECK(inferred(elbow, -5.0, 146.0, "direction-inferred").sign == 1);
    CHECK(inferred(elbow, -146.0, 5.0, "direction-inferred").sign == -1);
    CHECK(inferred(elbow, -2.0, 20.0, "direction-inferred").sign == 1);  // 20 deg of flexion, not of hyperextension
    CHECK(inferred(joint_motion("ankle"), -1.0, 45.0, "direction-inferred").sign == -1);  // plantarflexion goes further
    CHECK(inferred(joint_motion("hip", "abduction"), -1.0, 40.0, "direction-inferred").sign == -1);
}

TEST_CASE("where both signs fit about as well the larger excursion is positive", "[angle][direction]") {
    CHECK(inferred(joint_motion("neck", "rotation"), -70.0, 60.0, "direction-unknown").sign == -1);
    CHECK(inferred(joint_motion("wrist"), -10.0, 60.0, "direction-unknown").sign == 1);
    CHECK(inferred(unknown_joint_motion(), -100.0, 5.0, "direction-unknown").sign == -1);
    CHECK(inferred(unknown_joint_motion(), 0.0, 0.0, "direction-unknown").sign == 1);
}

TEST_CASE("a stated mirror goes before everything", "[angle][direction]") {
    const Calibration calibration = elbow_calibration(Side::left);
    Findings findings;
    for (const bool mirror : {false, true}) {
        const auto direction = stated_direction(
            {.motion = joint_motion("elbow"), .side = Side::right, .calibration = &calibration, .mirror = mirror},
            findings);
        REQUIRE(direction);
        CHECK(direction->sign == (mirror ? -1 : 1));
    }
    CHECK(findings.empty());
}

TEST_CASE("a calibration settles the sign and turns it on the other side", "[angle][direction]") {
    const Calibration calibration = elbow_calibration(Side::left);
    Findings findings;
    const auto sign_on = [&](Side side) {
        return stated_direction({.motion = joint_motion("elbow"), .side = side, .calibration = &calibration}, findings)
            ->sign;
    };
    CHECK(sign_on(Side::left) == 1);
    CHECK(sign_on(Side::unknown) == 1);
    CHECK(findings.empty());
    CHECK(sign_on(Side::right) == -1);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "calibration-side-changed");
    CHECK_THAT(findings[0].text, ContainsSubstring("left") && ContainsSubstring("right"));
}

TEST_CASE("a calibration of another joint or of none leaves the sign open", "[angle][direction]") {
    Calibration calibration = elbow_calibration(Side::left);
    Findings findings;
    CHECK_FALSE(stated_direction({.motion = joint_motion("knee"), .calibration = &calibration}, findings));
    CHECK(contains(findings, "calibration-other-joint"));
    findings.clear();
    CHECK(stated_direction({.motion = unknown_joint_motion(), .calibration = &calibration}, findings));
    calibration.joint = calibration.motion = calibration.rises_with = "";
    CHECK_FALSE(stated_direction({.motion = joint_motion("elbow"), .calibration = &calibration}, findings));
    CHECK_FALSE(stated_direction({.motion = joint_motion("elbow")}, findings));
    CHECK(findings.empty());
}

TEST_CASE("an impossible direction and an impossible angle are told apart", "[angle][direction]") {
    const auto code_of = [](const JointMotion& motion, double low_deg, double high_deg) {
        Findings findings;
        judge_direction(motion, Degrees(low_deg), Degrees(high_deg), findings);
        return findings.empty() ? std::string() : std::string(findings[0].code());
    };
    CHECK(code_of(joint_motion("elbow"), -5.0, 146.0).empty());
    CHECK(code_of(joint_motion("elbow"), -120.0, 3.0) == "direction-implausible");
    CHECK(code_of(joint_motion("elbow"), -60.0, 150.0) == "angle-implausible");
    CHECK(code_of(joint_motion("elbow"), 0.0, 700.0) == "angle-implausible");
    CHECK(code_of(unknown_joint_motion(), 0.0, 700.0).empty());
}
