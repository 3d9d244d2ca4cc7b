#include <jointrom/load/static_load.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/load/load_request.hpp>

#include <support/catch.hpp>

#include <cmath>

using namespace jointrom;

namespace {

const JointMotion& elbow() {
    return joint_motion("elbow");
}

LoadModel exact(LoadModel model) {
    model.u_from_hanging = Degrees(0.0);
    for (HeldMass& held : model.masses) {
        held.u_mass_kg = held.u_at_m = 0.0;
    }
    return model;
}

}  // namespace

// OpenStax, College Physics, example 9.4, and University Physics 1, section 12.4 (50 lb at 13 in, muscle at 1.5 in).
TEST_CASE("textbook problems of a forearm held still come out", "[load][static_load]") {
    const LoadModel book{.limb = stated_limb(2.5, 0.16), .masses = {held_mass(4.0, 0.38)}, .gravity_m_s2 = 9.80};
    const StaticLoad held = static_load(elbow(), book, Degrees(90.0), muscle_attachment(0.04, Degrees(90.0)));
    CHECK_THAT(held.moment_nm, WithinRel(18.816, 1e-12));
    CHECK_THAT(held.limb_nm, WithinRel(3.92, 1e-12));
    CHECK_THAT(held.muscle_n, WithinAbs(470.0, 0.5));
    CHECK_THAT(held.joint_n, WithinAbs(407.0, 0.5));
    CHECK(held.group == MuscleGroup::positive);
    const LoadModel weight{.masses = {held_mass(22.68, 0.3302)}};
    const StaticLoad lifted = static_load(elbow(), weight, Degrees(120.0), muscle_attachment(0.0381, Degrees(120.0)));
    CHECK_THAT(lifted.muscle_n, WithinAbs(1927.0, 1.0));
    CHECK_THAT(lifted.joint_n, WithinAbs(1705.0, 1.0));
}

// 2 % of 4 kg and 0.01 m as rectangular; d(moment) = g (L dm + m dL), and 0 of the posture where the limb is
// horizontal.
TEST_CASE("the moment of a held limb carries what is not exact", "[load][static_load]") {
    const LoadModel model{.masses = {held_mass(4.0, 0.38)}, .gravity_m_s2 = 9.80};
    const double expected = 9.8 * std::hypot(0.38 * 0.08 / std::sqrt(3.0), 4.0 * 0.01 / std::sqrt(3.0));
    CHECK_THAT(static_load(elbow(), model, Degrees(90.0)).moment_budget.standard_uncertainty(),
               WithinRel(expected, 1e-6));
    CHECK(static_load(elbow(), model, Degrees(45.0)).moment_budget.standard_uncertainty() > expected);
}

TEST_CASE("a moment that is no larger than its uncertainty asks for no muscle", "[load][static_load]") {
    const LoadModel model{.masses = {held_mass(4.0, 0.38)}};
    const StaticLoad hanging = static_load(elbow(), model, Degrees(1.0), muscle_attachment(0.04, Degrees(90.0)));
    CHECK(hanging.group == MuscleGroup::undecided);
    CHECK(std::isnan(hanging.muscle_n));
    CHECK(std::isnan(hanging.joint_n));
    CHECK(static_load(elbow(), exact(model), Degrees(1.0)).group == MuscleGroup::positive);
    CHECK(static_load(elbow(), exact(model), Degrees(-20.0)).group == MuscleGroup::negative);
    CHECK(static_load(elbow(), exact(model), Degrees(0.0)).group == MuscleGroup::undecided);
    CHECK(std::isnan(static_load(elbow(), model, Degrees(90.0), muscle_attachment(0.04)).joint_n));
    CHECK_THROWS_AS(static_load(elbow(), model, Degrees(1e9)), Failure);
    CHECK_THROWS_AS(static_load(elbow(), model, Degrees()), Failure);
}

TEST_CASE("a muscle is one of the request, whole or not at all", "[load][static_load]") {
    LoadRequest request;
    CHECK_FALSE(muscle_of(request));
    request.pull = Degrees(90.0);
    CHECK_THROWS_AS(muscle_of(request), Failure);
    request.moment_arm_m = 0.04;
    CHECK(muscle_of(request)->pull == Degrees(90.0));
    request.moment_arm_m = 4.0;
    CHECK_THROWS_AS(muscle_of(request), Failure);
}
