#include <jointrom/load/limb.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const BodySize body{.mass_kg = 75.0, .height_m = 1.75};

std::string code_of(const auto& call) {
    try {
        call();
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "none";
}

}  // namespace

// Computed by hand from Winter's table: 0.022 of 75 kg; 0.682 and 0.827 of 0.146 of 1.75 m.
TEST_CASE("forearm and hand are those of the published table", "[load][limb]") {
    const auto reference = reference_json("reference/load/load.json").at("winter_75kg_175m");
    const Limb limb = limb_beyond(joint_motion("elbow"), body, "winter");
    CHECK(limb.words == "forearm and hand");
    CHECK_THAT(limb.mass_kg, WithinRel(reference.at("forearm_hand_mass").get<double>(), 1e-12));
    CHECK_THAT(limb.com_m, WithinRel(reference.at("com_forearm_hand_from_elbow").get<double>(), 1e-12));
    CHECK_THAT(limb.inertia_kg_m2, WithinRel(1.65 * std::pow(0.827 * 0.2555, 2), 1e-3));  // 0.827^2 = 0.682^2 + 0.468^2
}

// A limb put together from single segments: de Leva 1996, table 4, by hand.
TEST_CASE("segments in line are put together", "[load][limb]") {
    const double height = 1.741;
    const Limb limb = limb_beyond(joint_motion("elbow"), {.mass_kg = 73.0, .height_m = height}, "de-leva-male");
    const double forearm = 0.0162 * 73.0;
    const double hand = 0.0061 * 73.0;
    const double forearm_at = 0.4574 * 0.2689;
    const double hand_at = 0.2689 + 0.79 * 0.0862;
    CHECK_THAT(limb.mass_kg, WithinRel(forearm + hand, 1e-12));
    CHECK_THAT(limb.com_m, WithinRel((forearm * forearm_at + hand * hand_at) / (forearm + hand), 1e-12));
    const double inertia = forearm * (forearm_at * forearm_at + std::pow(0.265 * 0.2689, 2)) +
                           hand * (hand_at * hand_at + std::pow(0.513 * 0.0862, 2));
    CHECK_THAT(limb.inertia_kg_m2, WithinRel(inertia, 1e-12));
}

// Two tables of the same thing: they must not differ by more than persons do. A fraction applied to the wrong length
// (0.682 of elbow to finger tip) would make the moment larger by three quarters.
TEST_CASE("the published sets agree on the moment of a limb's weight", "[load][limb]") {
    for (const char* joint : {"elbow", "shoulder", "knee", "hip"}) {
        CAPTURE(joint);
        const Limb winter = limb_beyond(joint_motion(joint), body, "winter");
        for (const char* set : {"de-leva-female", "de-leva-male"}) {
            const Limb other = limb_beyond(joint_motion(joint), body, set);
            CHECK_THAT(other.mass_kg * other.com_m, WithinRel(winter.mass_kg * winter.com_m, 0.2));
            CHECK(other.inertia_kg_m2 > other.mass_kg * other.com_m * other.com_m);
        }
    }
}

TEST_CASE("a limb that is stated is a rod about the joint", "[load][limb]") {
    const Limb limb = stated_limb(2.5, 0.16);
    CHECK_THAT(limb.inertia_kg_m2, WithinRel(2.5 * 0.32 * 0.32 / 3.0, 1e-12));
    CHECK(code_of([] { (void)stated_limb(-2.5, 0.16); }) == "segment-invalid");
    CHECK(code_of([] { (void)stated_limb(2.5, 16.0); }) == "segment-invalid");
    CHECK(code_of([] { (void)stated_limb(std::nan(""), 0.16); }) == "segment-invalid");
}

TEST_CASE("impossible bodies and unknown sets and joints are refused", "[load][limb]") {
    const auto code = [](const char* joint, BodySize size, const char* set) {
        return code_of([&] { (void)limb_beyond(joint_motion(joint), size, set); });
    };
    CHECK(code("elbow", {}, "winter") == "body-size-missing");
    CHECK(code("elbow", {.mass_kg = 75.0}, "winter") == "body-size-missing");
    CHECK(code("elbow", {.mass_kg = 75.0, .height_m = 0.0}, "winter") == "body-size-implausible");
    CHECK(code("elbow", {.mass_kg = 75.0, .height_m = 175.0}, "winter") == "body-size-implausible");
    CHECK(code("elbow", {.mass_kg = -75.0, .height_m = 1.75}, "winter") == "body-size-implausible");
    CHECK(code("elbow", {.mass_kg = 75000.0, .height_m = 1.75}, "winter") == "body-size-implausible");
    CHECK(code("elbow", body, "wintr") == "segment-set-unknown");
    CHECK(code("neck", body, "winter") == "load-joint");
    CHECK(code("forearm", body, "winter") == "load-joint");
    CHECK(code_of([] { (void)limb_beyond(joint_motion("shoulder", "rotation"), body, "winter"); }) == "load-joint");
    CHECK(code_of([] { (void)limb_beyond(unknown_joint_motion(), body, "winter"); }) == "load-joint");
}

TEST_CASE("every motion with postures has a limb in every set", "[load][limb]") {
    std::size_t count = 0;
    for (const JointMotion& motion : joint_motions()) {
        if (postures_of(motion).empty()) {
            CHECK(code_of([&] { (void)posture_named(motion, ""); }) == "load-joint");
            continue;
        }
        ++count;
        CHECK(posture_named(motion, "").name == postures_of(motion).front().name);
        CHECK(code_of([&] { (void)posture_named(motion, "afloat"); }) == "posture-unknown");
        for (const SegmentSet& set : segment_sets()) {
            CHECK(limb_beyond(motion, body, set.name).mass_kg > 0.0);
            CHECK_FALSE(set.source.empty());
        }
    }
    CHECK(count == 8);
}

TEST_CASE("muscles are named after what they do", "[load][limb]") {
    CHECK(muscles_toward("flexion") == "flexors");
    CHECK(muscles_toward("extension") == "extensors");
    CHECK(muscles_toward("abduction") == "abductors");
    CHECK(muscles_toward("ulnar deviation") == "ulnar deviators");
    CHECK(muscles_toward("up") == "up muscles");
}
