#include <jointrom/load/load_model.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/load/load_request.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference(const char* name) {
    return reference_json("reference/load/load.json").at(name);
}

std::string code_of(const auto& call) {
    try {
        call();
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "none";
}

std::string code_of_request(const LoadRequest& request, const char* joint = "elbow") {
    Findings findings;
    return code_of([&] { (void)load_model(joint_motion(joint), request, findings); });
}

LoadRequest forearm_request() {
    LoadRequest request;
    request.segment_kg = 2.5;
    request.segment_at_m = 0.16;
    return request;
}

}  // namespace

// OpenStax, College Physics, section 9.6, example 9.4: 470 N in the biceps, 407 N at the elbow, 63.7 N of weight.
TEST_CASE("the forearm with a book of the physics text", "[load][load_model]") {
    const auto expected = reference("book_in_hand");
    LoadModel model{.limb = stated_limb(2.5, 0.16), .masses = {held_mass(4.0, 0.38)}, .gravity_m_s2 = 9.80};
    const MuscleAttachment biceps = muscle_attachment(0.04, Degrees(90.0));
    const double moment = static_moment_nm(model, Degrees(90.0));
    CHECK_THAT(moment, WithinRel(expected.at("moment").get<double>(), 1e-12));
    CHECK_THAT(muscle_force_n(moment, biceps), WithinRel(expected.at("muscle_force").get<double>(), 1e-12));
    CHECK_THAT(muscle_force_n(moment, biceps), WithinAbs(470.0, 0.5));
    CHECK_THAT(model.weight_n(), WithinAbs(63.7, 0.05));
    const double joint = joint_force_n(model, {.joint_angle = Degrees(90.0)}, moment, biceps);
    CHECK_THAT(joint, WithinRel(expected.at("joint_force").get<double>(), 1e-12));
    CHECK_THAT(joint, WithinAbs(407.0, 0.5));
}

// OpenStax, University Physics 1, section 12.4: 50 lb, 13 in from the elbow, forearm at 60 deg to the upper arm, whose
// weight is left out; the biceps pulls along the upper arm: 1927 N and 1705 N.
TEST_CASE("the weight in a hand at 60 deg to the upper arm of the physics text", "[load][load_model]") {
    const double pound_n = 4.4482216152605;
    const double inch_m = 0.0254;
    LoadModel model{.masses = {held_mass(50.0 * pound_n / 9.80665, 13.0 * inch_m)}};
    const Degrees flexion(120.0);
    const MuscleAttachment biceps = muscle_attachment(1.5 * inch_m, Degrees(120.0));
    const double moment = static_moment_nm(model, flexion);
    CHECK_THAT(muscle_force_n(moment, biceps), WithinAbs(1927.0, 0.6));
    CHECK_THAT(joint_force_n(model, {.joint_angle = flexion}, moment, biceps), WithinAbs(1705.0, 0.6));
}

// A school example (physics revision page on levers of the body): 20 N at 150 mm and 10 N at 400 mm, muscle at 50 mm.
TEST_CASE("the school example of the forearm as a lever", "[load][load_model]") {
    LoadModel model{
        .limb = stated_limb(20.0 / 9.81, 0.15), .masses = {held_mass(10.0 / 9.81, 0.4)}, .gravity_m_s2 = 9.81};
    CHECK_THAT(muscle_force_n(static_moment_nm(model, Degrees(90.0)), muscle_attachment(0.05)),
               WithinRel(140.0, 1e-12));
}

TEST_CASE("gravity asks for the muscles that lift, whichever way the near part is held", "[load][load_model]") {
    struct Case {
        const char* joint;
        const char* motion;
        const char* posture;
        double angle_deg;
        double sign;  // of the moment; 0: the limb hangs or stands on its end
    };
    const std::vector<Case> cases{{"elbow", "", "hanging", 90.0, 1.0},
                                  {"elbow", "", "horizontal", 0.0, 1.0},
                                  {"elbow", "", "horizontal", 90.0, 0.0},
                                  {"elbow", "", "overhead", 90.0, -1.0},
                                  {"knee", "", "sitting", 0.0, -1.0},
                                  {"knee", "", "sitting", 90.0, 0.0},
                                  {"knee", "", "standing", 60.0, 1.0},
                                  {"knee", "", "prone", 0.0, 1.0},
                                  {"hip", "", "prone", -10.0, -1.0},
                                  {"hip", "abduction", "standing", -30.0, -1.0},
                                  {"hip", "abduction", "side-lying", 0.0, -1.0},
                                  {"shoulder", "abduction", "upright", 90.0, 1.0},
                                  {"wrist", "", "palm-down", 0.0, -1.0},
                                  {"wrist", "deviation", "thumb-up", 0.0, -1.0}};
    for (const Case& row : cases) {
        CAPTURE(row.joint, row.posture, row.angle_deg);
        Findings findings;
        LoadRequest request = forearm_request();
        request.posture = row.posture;
        const LoadModel model = load_model(joint_motion(row.joint, row.motion), request, findings);
        CHECK(findings.empty());
        const double moment = static_moment_nm(model, Degrees(row.angle_deg));
        CHECK(moment * row.sign >= 0.0);
        CHECK((std::abs(moment) > 1.0) == (row.sign != 0.0));
    }
}

TEST_CASE("without a muscle's direction its arm is the moment arm", "[load][load_model]") {
    CHECK_THAT(muscle_force_n(-17.0, muscle_attachment(0.05)), WithinRel(340.0, 1e-12));
    CHECK_THAT(muscle_force_n(17.0, muscle_attachment(0.05, Degrees(30.0))), WithinRel(680.0, 1e-12));
    CHECK(code_of([] { (void)muscle_attachment(4.0); }) == "moment-arm-invalid");
    CHECK(code_of([] { (void)muscle_attachment(0.0); }) == "moment-arm-invalid");
    CHECK(code_of([] { (void)muscle_attachment(0.04, Degrees(180.0)); }) == "moment-arm-invalid");
}

// A mass swung round without gravity's moment: the bone must pull with m r omega^2, less nothing.
TEST_CASE("a limb that swings pulls on the joint", "[load][load_model]") {
    LoadModel model{.masses = {held_mass(2.0, 0.5)}};
    const double speed_deg_s = 360.0;
    const double expected = 2.0 * 0.5 * std::pow(2.0 * 3.14159265358979, 2) + model.weight_n();
    CHECK_THAT(joint_force_n(model, {.joint_angle = Degrees(0.0), .velocity_deg_s = speed_deg_s}, 0.0,
                             muscle_attachment(0.04, Degrees(90.0))),
               WithinRel(expected, 1e-9));
}

TEST_CASE("a request that is not whole or not possible is refused", "[load][load_model]") {
    LoadRequest request = forearm_request();
    CHECK(code_of_request(request) == "none");
    CHECK(code_of_request(request, "trunk") == "load-joint");
    request.load_kg = {5.0};
    CHECK(code_of_request(request) == "load-incomplete");
    request.load_at_m = {0.3};
    CHECK(code_of_request(request) == "none");
    request.load_kg = {-5.0};
    CHECK(code_of_request(request) == "load-invalid");
    request.load_kg = {std::nan("")};
    CHECK(code_of_request(request) == "load-invalid");
    request.load_kg = {5.0};
    request.load_at_m = {30.0};
    CHECK(code_of_request(request) == "load-invalid");
    request.load_at_m = {0.3};
    request.load_u_kg = -1.0;
    CHECK(code_of_request(request) == "uncertainty-negative");

    request = forearm_request();
    request.segment_at_m = std::nan("");
    CHECK(code_of_request(request) == "load-incomplete");
    request = forearm_request();
    request.posture = "hanging";
    request.posture_angle = Degrees(10.0);
    CHECK(code_of_request(request) == "posture-twice");
    request = forearm_request();
    request.gravity_m_s2 = 0.0;
    CHECK(code_of_request(request) == "gravity-implausible");
    request = forearm_request();
    request.posture_u = Degrees(-1.0);
    CHECK(code_of_request(request) == "uncertainty-negative");
    LoadRequest nothing;
    nothing.segments = "none";
    CHECK(code_of_request(nothing) == "load-empty");
    CHECK(code_of_request({}) == "body-size-missing");
}

TEST_CASE("a posture that is not stated is assumed and said", "[load][load_model]") {
    Findings findings;
    const LoadModel model = load_model(joint_motion("knee"), forearm_request(), findings);
    CHECK(contains(findings, "posture-assumed"));
    CHECK(model.from_hanging == Degrees(-90.0));
}
