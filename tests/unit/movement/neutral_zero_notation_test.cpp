#include <jointrom/movement/neutral_zero_notation.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

std::string notation(double negative_end_deg, double positive_end_deg) {
    return neutral_zero_notation(Degrees(negative_end_deg), Degrees(positive_end_deg), joint_motion("elbow")).text();
}

}  // namespace

// Worked examples of the neutral zero method for the elbow as printed in teaching texts, there written flexion first:
// 145-0-5 (through neutral), 145-20-0 (20 deg lacking to straight), 50-0 (stiff at 50 deg).
TEST_CASE("the notation is that of the worked examples, extension first", "[movement][neutral_zero_notation]") {
    CHECK(notation(-5, 145) == "extension-flexion 5-0-145");
    CHECK(notation(20, 145) == "extension-flexion 0-20-145");
    CHECK(notation(50, 50) == "extension-flexion 0-50");
}

TEST_CASE("ends at neutral and on the negative side have their places", "[movement][neutral_zero_notation]") {
    CHECK(notation(0, 140) == "extension-flexion 0-0-140");
    CHECK(notation(-30, -10) == "extension-flexion 30-10-0");
    CHECK(notation(-30, 0) == "extension-flexion 30-0-0");
    CHECK(notation(-12, -12) == "extension-flexion 12-0");
    CHECK(notation(0, 0) == "extension-flexion 0-0");
}

TEST_CASE("angles are rounded to whole degrees before the case is chosen", "[movement][neutral_zero_notation]") {
    CHECK(notation(-0.4, 139.6) == "extension-flexion 0-0-140");
    CHECK(notation(-0.6, 139.4) == "extension-flexion 1-0-139");
    CHECK(notation(49.6, 50.4) == "extension-flexion 0-50");
    CHECK(notation(0.4, 90.5) == "extension-flexion 0-0-91");
}

TEST_CASE("directions are named for any joint", "[movement][neutral_zero_notation]") {
    CHECK(neutral_zero_notation(Degrees(-30), Degrees(178), joint_motion("shoulder", "abduction")).text() ==
          "adduction-abduction 30-0-178");
    CHECK(neutral_zero_notation(Degrees(-3), Degrees(40), unknown_joint_motion()).text() == "negative-positive 3-0-40");
}

TEST_CASE("an end in words has no sign", "[movement][neutral_zero_notation]") {
    const JointMotion& elbow = joint_motion("elbow");
    CHECK(range_end_in_words(Degrees(-5), RangeEnd::negative, elbow) == "extension to 5 deg beyond neutral");
    CHECK(range_end_in_words(Degrees(19.7), RangeEnd::negative, elbow) == "extension to 20 deg short of neutral");
    CHECK(range_end_in_words(Degrees(145), RangeEnd::positive, elbow) == "flexion to 145 deg");
    CHECK(range_end_in_words(Degrees(-10), RangeEnd::positive, elbow) == "flexion to 10 deg short of neutral");
    CHECK(range_end_in_words(Degrees(-0.3), RangeEnd::negative, elbow) == "extension to neutral");
}
