#include <jointrom/norms/side_comparison.hpp>

#include <support/catch.hpp>

#include <cmath>

using namespace jointrom;

namespace {

Budget sensor(double angle_deg) {
    Budget budget;
    budget.add({.input = "gain", .u = 0.01, .sensitivity = angle_deg, .common_to = CommonTo::calibration});
    budget.add({.input = "zero", .u = 0.6, .common_to = CommonTo::recording});
    return budget;
}

}  // namespace

TEST_CASE("sides differ by more than usual measurement error from the larger limit on", "[norms][side_comparison]") {
    // Cleffken 2007: smallest detectable differences of 8.2 deg in elbow flexion and 4.2 deg in extension.
    const JointMotion& elbow = joint_motion("elbow");
    CHECK(side_limit(elbow, MotionPart::positive).limit == Degrees(8.2));
    CHECK_THAT(side_limit(elbow, MotionPart::positive).basis, ContainsSubstring("cleffken2007"));
    CHECK(side_limit(elbow, MotionPart::negative).limit == Degrees(5.0));
    CHECK_THAT(side_limit(elbow, MotionPart::negative).basis, ContainsSubstring("common practice"));
    CHECK(side_limit(joint_motion("hip"), MotionPart::positive).limit == Degrees(5.0));
    CHECK(side_limit(elbow, MotionPart::positive, Degrees(10.0)).limit == Degrees(10.0));
}

TEST_CASE("an error that both sides share does not count for their difference", "[norms][side_comparison]") {
    const SideLimit limit{Degrees(5.0), "test"};
    const SideExtent left{Degrees(140.0), sensor(140.0)}, right{Degrees(130.0), sensor(130.0)};
    const auto same = compare_sides(left, right, limit, CommonTo::calibration);
    CHECK(same.difference == Degrees(10.0));
    CHECK_THAT(same.budget.standard_uncertainty(), WithinRel(std::sqrt(0.01 + 2 * 0.36), 1e-12));
    CHECK(in_words(same) == "larger than usual measurement error");
    const auto apart = compare_sides(left, right, limit);
    CHECK_THAT(apart.budget.standard_uncertainty(), WithinRel(std::sqrt(1.96 + 1.69 + 2 * 0.36), 1e-12));
    CHECK(in_words(apart) == "larger than usual measurement error");
    CHECK(in_words(compare_sides(left, {Degrees(137.0), sensor(137.0)}, limit)) ==
          "perhaps within usual measurement error");
    CHECK(in_words(compare_sides({Degrees(1.0), {}}, {Degrees(6.0), {}}, limit)) == "within usual measurement error");
    CHECK(in_words(compare_sides({Degrees(1.0), {}}, {Degrees(6.1), {}}, limit)) ==
          "larger than usual measurement error");
}
