#include <jointrom/movement/phases.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <cmath>
#include <limits>
#include <numbers>

using namespace jointrom;
using namespace jointrom::test;

namespace {

using Kinds = std::vector<PhaseKind>;
constexpr auto rest = PhaseKind::rest;
constexpr auto raising = PhaseKind::raising;
constexpr auto holding = PhaseKind::holding;
constexpr auto lowering = PhaseKind::lowering;

std::vector<double> elbow(const std::string& column) {
    return reference_column("reference/movement/elbow_reps_100hz.csv", column);
}

Kinds kinds(const std::vector<Phase>& phases) {
    Kinds result;
    for (const Phase& phase : phases) {
        result.push_back(phase.kind);
    }
    return result;
}

std::vector<SampleSpan> spans(const std::vector<Phase>& phases, PhaseKind kind) {
    std::vector<SampleSpan> result;
    for (const Phase& phase : phases) {
        if (phase.kind == kind) {
            result.push_back(phase.span);
        }
    }
    return result;
}

void check_runs(const std::vector<SampleSpan>& runs, const nlohmann::json& expected, double tolerance) {
    REQUIRE(runs.size() == expected.size());
    for (std::size_t i = 0; i < runs.size(); ++i) {
        CHECK_THAT(static_cast<double>(runs[i].first), WithinAbs(expected[i][0].get<double>(), tolerance));
        CHECK_THAT(static_cast<double>(runs[i].last - 1), WithinAbs(expected[i][1].get<double>(), tolerance));
    }
}

void check_cover(const AngleTrace& trace, const std::vector<Phase>& phases) {
    auto phase = phases.begin();
    for (const SampleSpan piece : trace.pieces()) {
        std::size_t covered = piece.first;
        double way_deg = trace.angle_deg()[piece.first];
        while (phase != phases.end() && phase->span.first < piece.last) {
            REQUIRE(phase->span.first == covered);
            REQUIRE_FALSE(phase->span.empty());
            covered = phase->span.last;
            way_deg += phase->excursion.value();
            ++phase;
        }
        REQUIRE(covered == piece.last);
        CHECK_THAT(way_deg, WithinAbs(trace.angle_deg()[piece.last - 1], 1e-9));
    }
    CHECK(phase == phases.end());
}

}  // namespace

TEST_CASE("phases of clean repetitions follow the 5 percent rule to the sample", "[movement][phases]") {
    const auto expected = reference_json("reference/movement/kinematics.json").at("elbow_reps");
    const auto trace = trace_from_angles(elbow("clean_deg"), Hertz(100));
    const auto result = movement_phases(trace);
    check_runs(spans(result.phases, raising), expected.at("clean_raising"), 0);
    check_runs(spans(result.phases, lowering), expected.at("clean_lowering"), 0);
    CHECK(spans(result.phases, holding).size() == 5);
    CHECK(spans(result.phases, rest).size() == 6);
    CHECK_THAT(result.raising_threshold.value(),
               WithinAbs(0.05 * expected.at("clean_peak_velocity_deg_s").get<double>(), 1e-9));
    check_cover(trace, result.phases);
}

// The noisy twin (SD 0.5 deg) through the usual 6 Hz filter; SciPy's run list also has a single sample at 486, which
// lasts too short for a movement.
TEST_CASE("phases of noisy repetitions are those of the clean ones", "[movement][phases]") {
    const auto expected =
        reference_json("reference/movement/kinematics.json").at("elbow_reps").at("noisy_filtered_6hz");
    auto lowered = expected.at("lowering");
    lowered.erase(1);
    const auto trace = filtered_trace(elbow("noisy_deg"), 100, 0.5);
    const auto result = movement_phases(trace);
    check_runs(spans(result.phases, raising), expected.at("raising"), 1);
    check_runs(spans(result.phases, lowering), lowered, 1);
    check_cover(trace, result.phases);
}

TEST_CASE("a minimum jerk movement has its closed form velocities", "[movement][phases]") {
    const double arc_deg = 87.3;
    const double duration_s = 1.3;
    const auto trace = trace_from_angles(
        minimum_jerk_path({{0, 4.1}, {1, 4.1}, {1 + duration_s, 4.1 + arc_deg}, {4, 4.1 + arc_deg}}, 1000), Hertz(1000),
        Seconds(10));
    const auto phases = movement_phases(trace).phases;
    REQUIRE(kinds(phases) == Kinds{rest, raising, holding});
    CHECK_THAT(phases[1].peak_velocity.value(), WithinRel(1.875 * arc_deg / duration_s, 1e-5));
    CHECK_THAT(phases[1].duration().value(), WithinAbs(0.8811317734879506 * duration_s, 0.0021));
    CHECK_THAT(phases[1].excursion.value(), WithinRel(arc_deg * (1 - 2 * 0.0019167393132250672), 1e-3));
    CHECK_THAT(phases[1].mean_velocity.value(),
               WithinRel(phases[1].excursion.value() / phases[1].duration().value(), 1e-12));
    CHECK_THAT(phases[1].start.value(), WithinAbs(11 + 0.05943411325602471 * duration_s, 0.0011));
    const auto ten_percent = movement_phases(trace, {.speed_share = 0.1}).phases;
    CHECK_THAT(ten_percent[1].duration().value(), WithinAbs(0.8269052146305295 * duration_s, 0.0021));
}

TEST_CASE("a raised cosine goes up and down without holds", "[movement][phases]") {
    const double arc_deg = 100;
    const double rate_hz = 200;
    const auto trace = trace_from_angles(
        sampled([&](double t) { return arc_deg / 2 * (1 - std::cos(2 * std::numbers::pi * 0.5 * t)); }, 6, rate_hz),
        Hertz(rate_hz));
    const auto phases = movement_phases(trace).phases;
    check_cover(trace, phases);
    const auto up = spans(phases, raising);
    const auto down = spans(phases, lowering);
    REQUIRE(up.size() == 3);
    REQUIRE(down.size() == 3);
    CHECK(spans(phases, holding).empty());
    CHECK(up[0].last == 200);
    CHECK(down[0] == SampleSpan{200, 400});
    for (const Phase& phase : phases) {
        if (phase.kind == raising) {  // pi f A
            CHECK_THAT(phase.peak_velocity.value(), WithinRel(157.07963267948966, 1e-4));
        }
    }
}

TEST_CASE("postures held on the way are holding and the low one is rest", "[movement][phases]") {
    const auto trace = trace_from_angles(
        minimum_jerk_path({{0, 2}, {1, 2}, {2, 50}, {3, 50}, {4, 110}, {5, 110}, {6, 25}, {7, 25}, {8, 3}, {9, 3}},
                          100),
        Hertz(100));
    const Kinds expected{rest, raising, holding, raising, holding, lowering, holding, lowering, rest};
    CHECK(kinds(movement_phases(trace).phases) == expected);
    // Rest can be the far end: a seated knee is extended from 90 deg flexion.
    const auto seated = trace_from_angles(
        minimum_jerk_path({{0, 88}, {1, 88}, {2, 10}, {3, 10}, {4, 87}, {5, 87}, {6, 11}, {7, 11}, {8, 88}, {9, 88}},
                          100),
        Hertz(100));
    CHECK(kinds(movement_phases(seated).phases) ==
          Kinds{rest, lowering, holding, raising, rest, lowering, holding, raising, rest});
}

TEST_CASE("short stops and small wobbles do not divide a movement", "[movement][phases]") {
    const auto trace = trace_from_angles(
        minimum_jerk_path(
            {{0, 0}, {1, 0}, {2, 60}, {2.05, 60}, {3, 110}, {4, 110}, {4.2, 107}, {4.6, 110}, {5, 110}, {6, 0}, {7, 0}},
            100),
        Hertz(100));
    CHECK(kinds(movement_phases(trace).phases) == Kinds{rest, raising, holding, lowering, rest});
}

TEST_CASE("a slow movement among fast ones is found", "[movement][phases]") {
    auto waypoints = repeated(3, 0.0, 110.0);
    waypoints.insert(waypoints.end(), {{30, 105}, {31, 105}, {32, 0}, {33, 0}});
    const auto phases = movement_phases(trace_from_angles(minimum_jerk_path(waypoints, 100), Hertz(100))).phases;
    const auto up = spans(phases, raising);
    REQUIRE(up.size() == 4);
    // Peak 1.875 * 105 / 20 deg/s; the least speed of 1 deg/s is the share q = 0.1016 of it, which is passed at
    // u = (1 - sqrt(1 - sqrt q)) / 2 = 0.0873.
    CHECK_THAT(static_cast<double>(up.back().size()) / 100, WithinAbs(20 * (1 - 2 * 0.0873), 0.03));
}

TEST_CASE("one jerk does not make the other movements count as still", "[movement][phases]") {
    auto angles = minimum_jerk_path(repeated(4, 0.0, 100.0), 100);
    for (std::size_t i = angles.size() - 5; i < angles.size(); ++i) {
        angles[i] = 170;
    }
    CHECK(spans(movement_phases(trace_from_angles(angles, Hertz(100))).phases, lowering).size() == 4);
}

TEST_CASE("time reversal swaps raising and lowering", "[movement][phases]") {
    const auto angles = minimum_jerk_path(repeated(3, 5.5, 96.1), 100);
    const auto n = angles.size();
    const auto forward = movement_phases(trace_from_angles(angles, Hertz(100))).phases;
    const auto backward = movement_phases(trace_from_angles(reversed(angles), Hertz(100))).phases;
    const auto up = spans(forward, raising);
    const auto down = spans(backward, lowering);
    REQUIRE(up.size() == down.size());
    for (std::size_t i = 0; i < up.size(); ++i) {
        CHECK(down[down.size() - 1 - i] == SampleSpan{n - up[i].last, n - up[i].first});
    }
}

TEST_CASE("the opposite sign convention swaps raising and lowering and keeps the times", "[movement][phases]") {
    const auto angles = with_noise(minimum_jerk_path(repeated(3, 5.5, 96.1), 100), 0.3);
    const auto phases = movement_phases(filtered_trace(angles, 100, 0.3)).phases;
    const auto mirrored = movement_phases(filtered_trace(negated(angles), 100, 0.3)).phases;
    REQUIRE(mirrored.size() == phases.size());
    for (std::size_t i = 0; i < phases.size(); ++i) {
        CHECK(mirrored[i].span == phases[i].span);
        const PhaseKind kind = phases[i].kind;
        CHECK(mirrored[i].kind == (kind == raising ? lowering : kind == lowering ? raising : kind));
        CHECK(mirrored[i].peak_velocity == -phases[i].peak_velocity);
    }
}

TEST_CASE("scaling time scales velocities and not the phases", "[movement][phases]") {
    const auto angles = minimum_jerk_path(repeated(2, 0.0, 90.0), 100);
    const PhaseOptions slow_options{.min_hold = Seconds(0.4), .min_movement = Seconds(0.2)};
    const auto fast = movement_phases(trace_from_angles(angles, Hertz(100))).phases;
    const auto slow = movement_phases(trace_from_angles(angles, Hertz(50)), slow_options).phases;
    REQUIRE(slow.size() == fast.size());
    for (std::size_t i = 0; i < fast.size(); ++i) {
        CHECK(slow[i].span == fast[i].span);
        CHECK_THAT(slow[i].peak_velocity.value(), WithinRel(fast[i].peak_velocity.value() / 2, 1e-12));
    }
}

TEST_CASE("a joint that does not move rests", "[movement][phases]") {
    CHECK(kinds(movement_phases(trace_from_angles({3, 3, 3}, Hertz(2))).phases) == Kinds{rest});
    const auto noisy = with_noise(std::vector<double>(3000, 71.0), 0.5);
    CHECK(kinds(movement_phases(filtered_trace(noisy, 100, 0.5)).phases) == Kinds{rest});
}

TEST_CASE("pieces between gaps are covered one by one", "[movement][phases]") {
    auto angles = minimum_jerk_path(repeated(2, 5.0, 95.0), 100);
    for (std::size_t i = 210; i < 230; ++i) {
        angles[i] = std::numeric_limits<double>::quiet_NaN();
    }
    const auto trace = trace_from_angles(angles, Hertz(100));
    const auto phases = movement_phases(trace).phases;
    check_cover(trace, phases);
    CHECK(kinds(phases) == Kinds{rest, raising, holding, holding, lowering, rest, raising, holding, lowering, rest});
}

TEST_CASE("time within a span is summed by kind", "[movement][phases]") {
    const auto trace = trace_from_angles(elbow("clean_deg"), Hertz(100));
    const auto phases = movement_phases(trace).phases;
    CHECK_THAT(time_in(phases, raising, {105, 200}, trace.rate()).value(), WithinAbs(0.71, 1e-12));
    CHECK_THAT(time_in(phases, holding, {105, 200}, trace.rate()).value(), WithinAbs(0.24, 1e-12));
    CHECK(time_in(phases, lowering, {105, 200}, trace.rate()).value() == 0.0);
}

TEST_CASE("directions have the names of a known joint", "[movement][phases]") {
    CHECK(name_of(raising, joint_motion("elbow")) == "toward flexion");
    CHECK(name_of(lowering, joint_motion("elbow")) == "toward extension");
    CHECK(name_of(holding, joint_motion("elbow")) == "holding");
    CHECK(name_of(lowering, unknown_joint_motion()) == "lowering");
}
