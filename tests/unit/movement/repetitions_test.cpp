#include <jointrom/movement/repetitions.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <cmath>
#include <limits>
#include <numbers>

using namespace jointrom;
using namespace jointrom::test;

namespace {

Repetitions found_in(const AngleTrace& trace, const RepetitionOptions& options = {}) {
    return repetitions(trace, movement_phases(trace), options);
}

Repetitions found_in(const std::vector<Waypoint>& waypoints) {
    return found_in(trace_from_angles(minimum_jerk_path(waypoints, 100), Hertz(100)));
}

std::vector<double> elbow(const std::string& column) {
    return reference_column("reference/movement/elbow_reps_100hz.csv", column);
}

std::size_t count(const Findings& findings, std::string_view code) {
    return static_cast<std::size_t>(
        std::ranges::count_if(findings, [&](const Finding& finding) { return finding.code() == code; }));
}

std::vector<Waypoint> joined(std::vector<Waypoint> waypoints, const std::vector<Waypoint>& more) {
    for (const Waypoint& point : more) {
        waypoints.push_back({waypoints.back().time_s + point.time_s, point.angle_deg});
    }
    return waypoints;
}

}  // namespace

TEST_CASE("a phase belongs to the repetition that holds its middle", "[movement][repetitions]") {
    const auto trace = trace_from_angles(elbow("clean_deg"), Hertz(100));
    const MovementPhases phases = movement_phases(trace);
    const Repetitions found = repetitions(trace, phases);
    for (const Phase& phase : phases.phases) {
        const Repetition* const repetition = repetition_with(phase, found.rows);
        CHECK((repetition == nullptr) == (phase.kind == PhaseKind::rest));
        if (repetition != nullptr) {
            CHECK(repetition->start <= phase.start);
            CHECK(phase.end <= repetition->end);
        }
    }
    CHECK(repetition_with(phases.phases.front(), {}) == nullptr);
}

TEST_CASE("repetitions have the truth of the movement that was made", "[movement][repetitions]") {
    const auto truth = reference_json("reference/movement/kinematics.json").at("elbow_reps").at("truth");
    const auto trace = trace_from_angles(elbow("clean_deg"), Hertz(100));
    const auto result = found_in(trace);
    REQUIRE(result.rows.size() == truth.size());
    CHECK(result.findings.empty());
    double sum = 0.0;
    double squares = 0.0;
    for (std::size_t i = 0; i < truth.size(); ++i) {
        const Repetition& row = result.rows[i];
        const auto value = [&](const char* key) { return truth[i].at(key).get<double>(); };
        CHECK(row.number == i + 1);
        CHECK_THAT(row.start.value(), WithinAbs(value("flex_onset_5pct"), 0.011));
        CHECK_THAT(row.end.value(), WithinAbs(value("extend_offset_5pct"), 0.011));
        CHECK_THAT(row.turn.value(), WithinAbs((value("flex_end_s") + value("extend_start_s")) / 2, 0.011));
        CHECK_THAT(row.arc.value(), WithinAbs(value("amplitude_deg"), 1e-6));
        CHECK_THAT(row.lowering_excursion.value(), WithinAbs(-value("amplitude_deg"), 1e-6));
        CHECK_THAT(row.start_angle.value(), WithinAbs(5.0, 1e-6));
        CHECK_THAT(row.raising_peak_velocity.value(), WithinRel(value("peak_flexion_velocity"), 1e-3));
        CHECK_THAT(row.lowering_peak_velocity.value(), WithinRel(value("peak_extension_velocity"), 1e-3));
        CHECK_THAT(row.raising.value(), WithinAbs(0.8 * 0.8811, 0.011));
        CHECK_THAT(row.lowering.value(), WithinAbs(1.0 * 0.8811, 0.021));
        CHECK_THAT((row.raising + row.holding + row.lowering).value(), WithinAbs(row.duration().value(), 1e-9));
        CHECK_THAT(row.smoothness.spectral_arc_length, WithinAbs(-1.42, 0.03));
        sum += row.arc.value();
        squares += std::pow(row.arc.value() - 120.0, 2);
    }
    CHECK_THAT(sum / 5, WithinAbs(120.0, 1e-6));
    CHECK_THAT(std::sqrt(squares / 4), WithinAbs(1.5811388300841898, 1e-6));
    CHECK_THAT(result.arc_cv_pct, WithinAbs(100 * 1.5811388300841898 / 120, 1e-6));
    CHECK_THAT(result.cadence_per_min, WithinRel(60 / 2.7, 1e-9));
}

TEST_CASE("noise of half a degree changes no count and no edge by more than a sample", "[movement][repetitions]") {
    const auto clean = found_in(trace_from_angles(elbow("clean_deg"), Hertz(100)));
    const auto noisy = found_in(filtered_trace(elbow("noisy_deg"), 100, 0.5));
    REQUIRE(noisy.rows.size() == clean.rows.size());
    for (std::size_t i = 0; i < clean.rows.size(); ++i) {
        CHECK_THAT(noisy.rows[i].start.value(), WithinAbs(clean.rows[i].start.value(), 0.0101));
        CHECK_THAT(noisy.rows[i].end.value(), WithinAbs(clean.rows[i].end.value(), 0.0101));
        CHECK_THAT(noisy.rows[i].arc.value(), WithinAbs(clean.rows[i].arc.value(), 1.0));
    }
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const auto angles = with_noise(elbow("clean_deg"), 0.5, seed);
        CHECK(found_in(filtered_trace(angles, 100, 0.5)).rows.size() == 5);
        CHECK(found_in(trace_from_angles(angles, Hertz(100))).rows.size() == 5);
    }
}

TEST_CASE("a held top that dips counts once", "[movement][repetitions]") {
    auto waypoints = repeated(2, 5, 120);
    waypoints = joined(waypoints, {{1, 118}, {0.4, 96}, {0.4, 121}, {0.5, 121}, {1, 5}, {1, 5}});
    const auto result = found_in(waypoints);
    REQUIRE(result.rows.size() == 3);
    CHECK(result.findings.empty());
    CHECK_THAT(result.rows[2].start.value(), WithinAbs(7.06, 0.02));
    CHECK_THAT(result.rows[2].turn_angle.value(), WithinAbs(121.0, 1e-6));
}

TEST_CASE("fidgeting before the start does not count", "[movement][repetitions]") {
    std::vector<Waypoint> fidgets{{0, 10}};
    for (int i = 0; i < 12; ++i) {
        fidgets = joined(fidgets, {{0.3, 10.0 + (i % 3) * 6.0}, {0.3, 10}, {0.4, 10}});
    }
    const auto moves =
        joined(fidgets, {{1, 110}, {0.5, 110}, {1, 10}, {0.5, 10}, {1, 108}, {0.5, 108}, {1, 10}, {1, 10}});
    const auto result = found_in(moves);
    REQUIRE(result.rows.size() == 2);
    CHECK_THAT(result.rows[0].start.value(), WithinAbs(12.06, 0.02));
    CHECK(count(result.findings, "aborted-repetition") == 0);
}

TEST_CASE("a drifting baseline changes neither count nor arcs much", "[movement][repetitions]") {
    auto angles = minimum_jerk_path(repeated(6, 5, 105), 100);
    for (std::size_t i = 0; i < angles.size(); ++i) {
        angles[i] += 40.0 * static_cast<double>(i) / static_cast<double>(angles.size());
    }
    const auto result = found_in(trace_from_angles(angles, Hertz(100)));
    REQUIRE(result.rows.size() == 6);
    for (const Repetition& row : result.rows) {
        CHECK_THAT(row.arc.value(), WithinAbs(100.0, 5.0));
    }
}

TEST_CASE("one repetition is found, however long the rest", "[movement][repetitions]") {
    const auto result = found_in({{0, 4}, {60, 4}, {61, 94}, {61.5, 94}, {62.5, 4}, {120, 4}});
    REQUIRE(result.rows.size() == 1);
    CHECK(contains(result.findings, "few-repetitions"));
    CHECK(std::isnan(result.cadence_per_min));
    CHECK(std::isnan(result.arc_cv_pct));
}

TEST_CASE("a joint that does not move has no repetitions", "[movement][repetitions]") {
    for (const auto& angles : {std::vector<double>(2000, 12.5), with_noise(std::vector<double>(2000, 12.5), 0.5)}) {
        const auto result = found_in(filtered_trace(angles, 100, 0.5));
        CHECK(result.rows.empty());
        REQUIRE(result.findings.size() == 1);
        CHECK(result.findings[0].code() == "no-movement");
    }
    const auto shifting = found_in({{0, 10}, {1, 10}, {1.5, 13.5}, {2, 10}, {3, 10}});
    CHECK(shifting.rows.empty());
    CHECK(contains(shifting.findings, "no-movement"));
}

TEST_CASE("a movement that turns back early is reported and not counted", "[movement][repetitions]") {
    auto waypoints = joined(repeated(3, 5, 105), {{0.6, 36}, {0.6, 5}, {1, 5}});
    waypoints = joined(waypoints, {{1, 105}, {1, 5}, {1, 5}});
    const auto result = found_in(waypoints);
    CHECK(result.rows.size() == 4);
    REQUIRE(count(result.findings, "aborted-repetition") == 1);
    CHECK_THAT(result.findings[0].text, ContainsSubstring("at 10.60 s"));
    CHECK_THAT(result.findings[0].text, ContainsSubstring("31 %"));
}

TEST_CASE("repetitions cut off by the recording are reported and not counted", "[movement][repetitions]") {
    const auto angles = minimum_jerk_path(repeated(4, 5, 105), 100);
    // From the middle of the first way up to the middle of the last way down.
    const std::vector<double> middle(angles.begin() + 145, angles.begin() + 1200);
    const auto result = found_in(trace_from_angles(middle, Hertz(100)));
    CHECK(result.rows.size() == 2);
    REQUIRE(count(result.findings, "cut-repetition") == 2);
    CHECK_THAT(result.findings[0].text, ContainsSubstring("the recording starts at 0.00 s"));
    CHECK_THAT(result.findings[1].text, ContainsSubstring("the recording ends at 10.55 s"));
    // Half a repetition is none.
    const auto half = found_in({{0, 5}, {1, 5}, {2, 95}, {3, 95}});
    CHECK(half.rows.empty());
    CHECK(contains(half.findings, "cut-repetition"));
    CHECK(contains(half.findings, "few-repetitions"));
}

TEST_CASE("repetitions across a gap are not counted", "[movement][repetitions]") {
    auto angles = minimum_jerk_path(repeated(5, 5, 105), 100);
    for (std::size_t i = 760; i < 820; ++i) {  // on the top of the third
        angles[i] = std::numeric_limits<double>::quiet_NaN();
    }
    const auto result = found_in(trace_from_angles(angles, Hertz(100)));
    CHECK(result.rows.size() == 4);
    CHECK(count(result.findings, "cut-repetition") == 2);
    CHECK_THAT(result.findings[0].text, ContainsSubstring("a gap starts at 7.60 s"));
    CHECK_THAT(result.cadence_per_min, WithinAbs(20.0, 1e-9));  // one pair on either side of the gap
}

TEST_CASE("a joint that rests at the far end repeats the other way", "[movement][repetitions]") {
    const auto seated = found_in(repeated(4, 88.5, 11.5));  // knee extension from sitting
    REQUIRE(seated.rows.size() == 4);
    CHECK(seated.away == AwayFromRest::toward_negative);
    CHECK_THAT(seated.rows[1].turn_angle.value(), WithinAbs(11.5, 1e-6));
    CHECK_THAT(seated.rows[1].lowering_excursion.value(), WithinAbs(-77.0, 1e-6));
    CHECK_THAT(seated.rows[1].raising_excursion.value(), WithinAbs(77.0, 1e-6));
}

TEST_CASE("rest in the middle gives repetitions toward the larger excursion", "[movement][repetitions]") {
    const auto sway = [](double t) { return 5.0 + 40.0 * std::sin(2 * std::numbers::pi * 0.5 * t); };
    const auto result = found_in(trace_from_angles(sampled(sway, 10, 100), Hertz(100)));
    CHECK(result.away == AwayFromRest::toward_positive);
    CHECK(result.rows.size() == 4);  // the first starts halfway up, one more ends halfway
    CHECK(count(result.findings, "cut-repetition") == 2);
    const auto mirrored = found_in(trace_from_angles(negated(sampled(sway, 10, 100)), Hertz(100)));
    CHECK(mirrored.away == AwayFromRest::toward_negative);
    CHECK(mirrored.rows.size() == 4);
}

TEST_CASE("the opposite sign convention mirrors the repetitions", "[movement][repetitions]") {
    const auto angles = with_noise(minimum_jerk_path(repeated(4, 5, 95), 100), 0.5);
    const auto result = found_in(filtered_trace(angles, 100, 0.5));
    const auto mirrored = found_in(filtered_trace(negated(angles), 100, 0.5));
    REQUIRE(result.rows.size() == 4);
    REQUIRE(mirrored.rows.size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        const Repetition& a = result.rows[i];
        const Repetition& b = mirrored.rows[i];
        CHECK(b.span == a.span);
        CHECK(b.turn_angle == -a.turn_angle);
        CHECK(b.raising_excursion == -a.lowering_excursion);
        CHECK(b.lowering_peak_velocity == -a.raising_peak_velocity);
        CHECK(b.raising == a.lowering);
        CHECK(b.arc == a.arc);
    }
}

TEST_CASE("continuous cycles without rest meet at the valleys", "[movement][repetitions]") {
    const auto cycle = [](double t) { return 50 * (1 - std::cos(2 * std::numbers::pi * t)); };
    const auto result = found_in(trace_from_angles(sampled(cycle, 6, 100), Hertz(100)));
    REQUIRE(result.rows.size() == 6);
    for (std::size_t i = 1; i < 6; ++i) {
        CHECK(result.rows[i].start == result.rows[i - 1].end);
        CHECK_THAT(result.rows[i].start.value(), WithinAbs(static_cast<double>(i), 0.011));
    }
    CHECK_THAT(result.cadence_per_min, WithinAbs(60, 1e-6));
}

TEST_CASE("repetitions are found at a few samples per second", "[movement][repetitions]") {
    const auto cycle = [](double t) {
        return t < 10 || t > 40 ? 12.0 : 12.0 + 60.0 * (1 - std::cos(2 * std::numbers::pi * (t - 10) / 6));
    };
    const auto result = found_in(trace_from_angles(sampled(cycle, 55, 3.6), Hertz(3.6)));
    CHECK(result.rows.size() == 5);
    CHECK(contains(result.findings, "smoothness-unavailable"));
    CHECK(std::isnan(result.rows[0].smoothness.spectral_arc_length));
    CHECK(found_in(trace_from_angles({1, 2, 1}, Hertz(2))).rows.empty());
}

TEST_CASE("Repetitions slower than any phase are counted from valley to valley", "[movement][repetitions]") {
    const AngleTrace trace = trace_from_angles(test::minimum_jerk_path(test::repeated(5, 0.0, 120.0), 100.0),
                                               Hertz(0.01));  // 2 deg in 100 s and slower
    const MovementPhases phases = movement_phases(trace);
    REQUIRE(phases.phases.size() == 1);
    const Repetitions found = repetitions(trace, phases);
    CHECK(found.rows.size() >= 3);
    for (const Repetition& row : found.rows) {
        CHECK(row.span.first < row.turn_sample);
        CHECK(row.turn_sample < row.span.last);
        CHECK_THAT(row.arc.value(), WithinAbs(120.0, 0.1));
    }
}
