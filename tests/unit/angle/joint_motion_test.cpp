#include <jointrom/angle/joint_motion.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <set>
#include <string>

using namespace jointrom;

namespace {

Failure failure_of(std::string_view joint, std::string_view motion = {}) {
    try {
        (void)joint_motion(joint, motion);
    } catch (const Failure& failure) {
        return failure;
    }
    throw std::logic_error("was accepted");
}

}  // namespace

TEST_CASE("every joint motion has directions, a neutral posture and limits round zero", "[angle][joint_motion]") {
    REQUIRE(joint_motions().size() >= 20);
    std::string last_joint;
    std::set<std::string> seen;
    for (const JointMotion& motion : joint_motions()) {
        CAPTURE(motion.joint, motion.motion);
        CHECK(motion.is_known());
        CHECK(seen.insert(motion.joint + "/" + motion.motion).second);
        CHECK(last_joint <= motion.joint);
        last_joint = motion.joint;
        CHECK_FALSE(motion.positive.empty());
        CHECK_FALSE(motion.negative.empty());
        CHECK(motion.positive != motion.negative);
        CHECK_FALSE(motion.neutral_posture.empty());
        CHECK(motion.plausible_min < Degrees(0.0));
        CHECK(motion.plausible_max > Degrees(0.0));
        CHECK(&joint_motion(motion.joint, motion.motion) == &motion);
    }
}

TEST_CASE("a joint without a motion means its principal motion", "[angle][joint_motion]") {
    CHECK(joint_motion("elbow").positive == "flexion");
    CHECK(joint_motion("Knee").motion == "flexion-extension");
    CHECK(joint_motion("ANKLE").positive == "dorsiflexion");
    CHECK(joint_motion("forearm").neutral_posture.ends_with("thumb up"));
    CHECK(joint_motion("forearm", "pronation").plausible_min == Degrees(-120.0));
}

TEST_CASE("a motion is found by one of its directions however it is written", "[angle][joint_motion]") {
    CHECK(joint_motion("wrist", "Ulnar Deviation").motion == "deviation");
    CHECK(joint_motion("shoulder", "abduction").motion == "abduction-adduction");
    CHECK(joint_motion("shoulder", "external_rotation").motion == "rotation");
    CHECK(joint_motion("hip", "Flexion/Extension").motion == "flexion-extension");
    CHECK(joint_motion("forearm", "isb pronation").motion == "pronation-from-supination");
}

TEST_CASE("an unknown joint or motion is refused with the nearest known name", "[angle][joint_motion]") {
    const Failure joint = failure_of("ebow");
    CHECK(joint.kind() == FailureKind::usage);
    CHECK(joint.code() == "joint-unknown");
    CHECK_THAT(joint.advice(), ContainsSubstring("'elbow'"));
    const Failure motion = failure_of("knee", "felxion");
    CHECK(motion.code() == "motion-unknown");
    CHECK_THAT(motion.advice(), ContainsSubstring("'flexion'"));
    CHECK_THAT(failure_of("thermometer").advice(), ContainsSubstring("Known: ankle, elbow"));
    CHECK(failure_of("").code() == "joint-unknown");
}

TEST_CASE("sides are read with their usual abbreviations", "[angle][joint_motion]") {
    CHECK(side_named("Left") == Side::left);
    CHECK(side_named("rt") == Side::right);
    CHECK(name_of(side_named("L")) == "left");
    CHECK_THROWS_AS(side_named("both"), Failure);
    CHECK_THROWS_AS(side_named(""), Failure);
}

TEST_CASE("the unknown joint has direction names but no limits", "[angle][joint_motion]") {
    CHECK_FALSE(unknown_joint_motion().is_known());
    CHECK(unknown_joint_motion().positive == "positive");
    CHECK_FALSE(unknown_joint_motion().plausible_max.is_set());
}

TEST_CASE("a direction, a whole motion and their other names are told apart", "[angle][joint_motion]") {
    CHECK(motion_part("elbow", "flexion").part == MotionPart::positive);
    CHECK(motion_part("elbow", "hyperextension").part == MotionPart::negative);
    CHECK(motion_part("elbow", "flexion/extension").part == MotionPart::arc);
    CHECK(motion_part("shoulder", "external rotation").part == MotionPart::negative);
    CHECK(motion_part("shoulder", "rotation").part == MotionPart::arc);
    CHECK(motion_part("ankle", "Plantar flexion").part == MotionPart::negative);
    CHECK(motion_part("cervical", "left rotation").motion == &joint_motion("neck", "rotation"));
    CHECK(motion_part("Finger_MCP", "flexion").motion->joint == "finger mcp");
    CHECK(name_of(MotionPart::negative, joint_motion("wrist", "deviation")) == "radial deviation");
    CHECK_FALSE(find_part(joint_motion("elbow"), "rotation"));
    CHECK_THROWS_AS(motion_part("elbow", ""), Failure);
}

TEST_CASE("an extent is counted in its own direction", "[angle][joint_motion]") {
    CHECK(extent_of_angle(Degrees(141.0), MotionPart::positive) == Degrees(141.0));
    CHECK(extent_of_angle(Degrees(4.0), MotionPart::negative) == Degrees(-4.0));  // 4 short of straight
    CHECK(extent_of_angle(Degrees(-6.0), MotionPart::negative) == Degrees(6.0));
}

TEST_CASE("ISB and clinical conventions differ in the zero of the forearm", "[angle][joint_motion]") {
    const JointMotion& clinical = joint_motion("forearm");
    REQUIRE(clinical.isb);
    CHECK(clinical.isb->positive == clinical.positive);
    CHECK_THAT(clinical.isb->zero, ContainsSubstring("supinated"));
    CHECK(joint_motion("forearm", "isb pronation").isb->zero.empty());
    for (const JointMotion& motion : joint_motions()) {
        CAPTURE(motion.joint, motion.motion);
        CHECK((!motion.isb || (motion.isb->positive == motion.positive && !motion.isb->basis.empty())));
        CHECK((!motion.typical_error || motion.typical_error->value > Degrees(0.0)));
    }
}
