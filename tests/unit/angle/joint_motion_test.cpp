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
