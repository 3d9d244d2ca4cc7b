#include <jointrom/norms/functional_arcs.hpp>
#include <jointrom/norms/measurement_error.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace jointrom;

namespace {

const TaskCover& cover_of(const std::vector<TaskCover>& covers, std::string_view source, std::string_view task) {
    const auto found = std::ranges::find_if(
        covers, [&](const TaskCover& cover) { return cover.arc->source == source && cover.arc->task == task; });
    REQUIRE(found != covers.end());
    return *found;
}

}  // namespace

TEST_CASE("every daily task has an arc that rises and that the joint can reach", "[norms][functional_arcs]") {
    CHECK(functional_arcs().size() == 35);
    for (const FunctionalArc& arc : functional_arcs()) {
        CAPTURE(arc.source, arc.task);
        CHECK(arc.low < arc.high);
        CHECK(arc.low >= arc.motion->plausible_min);
        CHECK(arc.high <= arc.motion->plausible_max);
    }
}

// Morrey 1981: elbow 30 to 130; Sardelli 2011: telephone 23 to 142; Heijnen 1998: 120 at least.
TEST_CASE("a stiff elbow covers some daily tasks and is short of others", "[norms][functional_arcs]") {
    const auto covers = task_cover(joint_motion("elbow"), Degrees(28.0), Degrees(135.0));
    CHECK(cover_of(covers, "morrey1981", "daily tasks").is_covered());
    const TaskCover& telephone = cover_of(covers, "sardelli2011", "holding a telephone");
    CHECK_FALSE(telephone.is_covered());
    CHECK_THAT(telephone.short_at_low.value(), WithinAbs(5.0, 1e-12));
    CHECK_THAT(telephone.short_at_high.value(), WithinAbs(7.0, 1e-12));
    CHECK_THAT(telephone.arc->low_sd.value(), WithinAbs(6.0, 0.0));
    CHECK(task_cover(joint_motion("elbow"), Degrees(23.0), Degrees(142.0)).at(1).is_covered());
}

// Palmer 1985: 30 of wrist extension; Ryu 1991: 60.
TEST_CASE("tasks in the negative direction count on the joint's axis", "[norms][functional_arcs]") {
    const auto covers = task_cover(joint_motion("wrist"), Degrees(-45.0), Degrees(60.0));
    const auto extension = std::ranges::find_if(
        covers, [](const TaskCover& cover) { return cover.arc->source == "palmer1985" && cover.arc->low.value() < 0; });
    REQUIRE(extension != covers.end());
    CHECK(extension->arc->low == Degrees(-30.0));
    CHECK(extension->arc->high == Degrees(0.0));
    CHECK(extension->is_covered());
    const auto wide = std::ranges::find_if(covers, [](const TaskCover& cover) {
        return cover.arc->source == "ryu1991" && cover.arc->part == MotionPart::negative;
    });
    REQUIRE(wide != covers.end());
    CHECK_THAT(wide->short_at_low.value(), WithinAbs(15.0, 1e-12));
}

TEST_CASE("an end that was not measured covers nothing and a joint without tasks has none",
          "[norms][functional_arcs]") {
    const auto covers = task_cover(joint_motion("knee"), Degrees(), Degrees(140.0));
    REQUIRE_FALSE(covers.empty());
    CHECK_FALSE(covers.front().is_covered());
    CHECK_FALSE(covers.front().short_at_low.is_set());
    CHECK(functional_arcs(joint_motion("wrist"), MotionPart::negative).size() == 3);  // Palmer, Ryu twice
    CHECK(task_cover(joint_motion("neck"), Degrees(-60.0), Degrees(60.0)).empty());
}

TEST_CASE("the errors of joint definitions are figures of the published table", "[norms][measurement_error]") {
    for (const JointMotion& motion : joint_motions()) {
        CAPTURE(motion.joint, motion.motion);
        const auto errors = measurement_errors(motion);
        const auto stands = [&](const std::string& source, Degrees value, std::optional<MotionPart> part) {
            return std::ranges::any_of(errors, [&](const MeasurementError* error) {
                return error->source == source && error->low == value &&
                       (!part || (error->motion != nullptr && error->part == *part));
            });
        };
        if (motion.typical_error) {
            CHECK(stands(motion.typical_error->source, motion.typical_error->value, {}));
        }
        if (motion.detectable_change) {
            for (const MotionPart part : {MotionPart::positive, MotionPart::negative, MotionPart::arc}) {
                const Degrees value = motion.detectable_change->of(part);
                CHECK((!value.is_set() || stands(motion.detectable_change->source, value, part)));
            }
        }
    }
}

// Cleffken 2007: 8.2 flexion, 8.5 arc; Hancock 2018: knee 10; Kolber 2011: lateral rotation 9, medial rotation 8.
TEST_CASE("the least detectable change names its source", "[norms][measurement_error]") {
    const auto elbow = detectable_change(joint_motion("elbow"), MotionPart::positive);
    REQUIRE(elbow);
    CHECK(elbow->value == Degrees(8.2));
    CHECK(elbow->source == "cleffken2007");
    CHECK(detectable_change(joint_motion("elbow"), MotionPart::arc)->value == Degrees(8.5));
    CHECK(detectable_change(joint_motion("knee"), MotionPart::arc)->value == Degrees(10.0));
    CHECK(detectable_change(joint_motion("shoulder", "rotation"), MotionPart::arc)->value == Degrees(9.0));
    CHECK_FALSE(detectable_change(joint_motion("shoulder", "flexion"), MotionPart::negative));
    CHECK_FALSE(detectable_change(joint_motion("shoulder", "flexion"), MotionPart::arc));
    CHECK_FALSE(detectable_change(joint_motion("wrist"), MotionPart::positive));
}

TEST_CASE("figures for any joint come behind those of the joint", "[norms][measurement_error]") {
    const auto errors = measurement_errors(joint_motion("hip"));
    REQUIRE(errors.size() > 2);
    CHECK(errors.front()->source == "boone1978");
    CHECK(errors.back()->joint.empty());
    for (const MeasurementError* error : measurement_errors(joint_motion("elbow"), MotionPart::positive)) {
        CHECK((error->motion == nullptr || error->part == MotionPart::positive));
    }
}
