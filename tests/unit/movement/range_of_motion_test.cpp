#include <jointrom/movement/range_of_motion.hpp>

#include <jointrom/movement/movement_scale.hpp>
#include <jointrom/signal/zero_phase.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> elbow(const std::string& column) {
    return reference_column("reference/movement/elbow_reps_100hz.csv", column);
}

/// The scatter of many trials against the uncertainty that was stated for each.
class Trials {
  public:
    void add(double error, const Budget& budget) {
        squares_ += error * error;
        stated_squares_ += std::pow(budget.standard_uncertainty(), 2);
    }
    [[nodiscard]] double stated_over_true() const { return std::sqrt(stated_squares_ / squares_); }

  private:
    double squares_ = 0.0;
    double stated_squares_ = 0.0;
};

/// Up to 60 deg, down to -60 deg and back, each end held for `hold_s`.
std::vector<double> both_ways(double frequency_hz, double hold_s) {
    const double quarter_s = 0.25 / frequency_hz;
    const auto path = [&](double t) {
        const double after_top = std::max(quarter_s, t - hold_s);
        const double after_bottom = std::max(3 * quarter_s, t - 2 * hold_s);
        const double moved_s = t < quarter_s ? t : t < 3 * quarter_s + hold_s ? after_top : after_bottom;
        return 60.0 * std::sin(2 * std::numbers::pi * frequency_hz * moved_s);
    };
    return sampled(path, 4 * quarter_s + 2 * hold_s, 100);
}

AngleTrace trace_with(std::vector<double> angles, const TraceUncertainty& known) {
    return trace_from_angles(std::move(angles), Hertz(100), Seconds(0), joint_motion("elbow"), Side::right, known);
}

}  // namespace

TEST_CASE("the range of clean repetitions is the one that was made", "[movement][range_of_motion]") {
    const auto trace = trace_from_angles(elbow("clean_deg"), Hertz(100));
    const auto rows = repetitions(trace, movement_phases(trace)).rows;
    const auto range = range_of_motion(trace, rows, still_postures(trace, {.min_duration = Seconds(0.3)}));
    CHECK_THAT(range.positive.angle.value(), WithinAbs(127.0, 1e-9));
    CHECK_THAT(range.negative.angle.value(), WithinAbs(5.0, 1e-9));
    CHECK_THAT(range.arc.value(), WithinAbs(122.0, 1e-9));
    CHECK_THAT(range.positive.time.value(), WithinAbs(7.2, 1e-9));  // the start of the highest top
    REQUIRE(range.mean_arc);
    CHECK(range.mean_arc->count == 5);
    CHECK_THAT(range.mean_arc->mean.value(), WithinAbs(120.0, 1e-6));
    CHECK_THAT(range.mean_arc->sd.value(), WithinAbs(1.5811388300841898, 1e-6));
    CHECK_THAT(range.mean_positive->mean.value(), WithinAbs(125.0, 1e-6));
    CHECK_THAT(range.mean_negative->mean.value(), WithinAbs(5.0, 1e-6));
    CHECK_THAT(range.mean_arc->budget.standard_uncertainty(), WithinRel(1.5811388300841898 / std::sqrt(5.0), 1e-4));
    CHECK_THAT(range.mean_arc->budget.effective_degrees_of_freedom(), WithinRel(4.0, 1e-3));
    REQUIRE(range.held_positive);
    CHECK_THAT(range.held_positive->mean.value(), WithinAbs(127.0, 0.1));
    CHECK_THAT(range.held_negative->mean.value(), WithinAbs(5.0, 0.1));
    CHECK(range.findings.empty());
}

// Largest and smallest sample of the noisy twin through the same filter in SciPy 1.10.1, see kinematics.json.
TEST_CASE("extremes are those of the filtered trace", "[movement][range_of_motion]") {
    const auto expected =
        reference_json("reference/movement/kinematics.json").at("elbow_reps").at("noisy_filtered_6hz");
    const auto range = range_of_motion(filtered_trace(elbow("noisy_deg"), 100, 0.5));
    CHECK_THAT(range.positive.angle.value(), WithinAbs(expected.at("largest_deg").get<double>(), 1e-3));
    CHECK_THAT(range.negative.angle.value(), WithinAbs(expected.at("smallest_deg").get<double>(), 1e-3));
    CHECK_FALSE(range.mean_arc);
    CHECK_FALSE(range.held_positive);
    // The noise makes the arc 0.79 deg larger than the true 122 deg, which the uncertainty has to admit.
    CHECK(range.arc_budget.expanded_uncertainty() > range.arc.value() - 122.0);
    CHECK(range.arc_budget.standard_uncertainty() < 1.0);
}

TEST_CASE("the sensor counts once in an extreme and zero not at all in an arc", "[movement][range_of_motion]") {
    TraceUncertainty known;
    known.gain_relative = 0.01;
    known.linearity = Degrees(0.4);
    known.zero = Degrees(0.3);
    const auto range = range_of_motion(trace_with(minimum_jerk_path(repeated(1, -20, 120), 100), known));
    CHECK_THAT(range.positive.budget.standard_uncertainty(), WithinRel(1.3, 1e-6));  // 1.2, 0.4, 0.3 in squares
    CHECK_THAT(range.negative.budget.standard_uncertainty(), WithinRel(std::sqrt(0.29), 1e-6));  // 0.2, 0.4, 0.3
    CHECK_THAT(range.arc_budget.standard_uncertainty(), WithinRel(std::sqrt(1.4 * 1.4 + 2 * 0.16), 1e-6));
}

// JCGM 101 in small: 2000 recordings with noise, gain, linearity and zero drawn anew; scatter known to 1.6 %.
TEST_CASE("uncertainties of extremes and arc are right in Monte Carlo trials", "[movement][range_of_motion]") {
    TraceUncertainty known;
    known.gain_relative = 0.01;
    known.linearity = Degrees(0.4);
    known.zero = Degrees(0.5);
    const auto truth = both_ways(0.5, 0.0);
    Trials positive, negative, arc;
    Noise draw(11);
    for (std::uint64_t trial = 1; trial <= 2000; ++trial) {
        const double gain = 1.0 + 0.01 * draw();
        const double zero = 0.5 * draw();
        const double bent_up = 0.4 * draw();
        const double bent_down = 0.4 * draw();
        auto angles = truth;
        for (double& angle : angles) {
            angle = gain * angle + zero + std::abs(angle) / 60.0 * (angle > 0.0 ? bent_up : bent_down);
        }
        const auto range = range_of_motion(filtered_trace(with_noise(angles, 0.5, trial), 100, 0.5, 6, known));
        positive.add(range.positive.angle.value() - 60.0, range.positive.budget);
        negative.add(range.negative.angle.value() + 60.0, range.negative.budget);
        arc.add(range.arc.value() - 120.0, range.arc_budget);
    }
    CHECK_THAT(positive.stated_over_true(), WithinAbs(1.0, 0.05));
    CHECK_THAT(negative.stated_over_true(), WithinAbs(1.0, 0.05));
    CHECK_THAT(arc.stated_over_true(), WithinAbs(1.0, 0.05));
}

TEST_CASE("the farthest of many noisy samples is too far by about as much as stated", "[movement][range_of_motion]") {
    const auto [frequency_hz, hold_s] = GENERATE(table<double, double>(
        {{0.1, 0.0}, {0.5, 0.0}, {1.0, 0.0}, {0.1, 0.5}, {0.5, 0.5}, {0.5, 2.0}, {1.0, 0.5}, {1.0, 2.0}, {2.0, 0.5}}));
    CAPTURE(frequency_hz, hold_s);
    const auto truth = both_ways(frequency_hz, hold_s);
    Trials positive, arc;
    for (std::uint64_t trial = 1; trial <= 300; ++trial) {
        const auto range = range_of_motion(filtered_trace(with_noise(truth, 0.5, trial), 100, 0.5));
        positive.add(range.positive.angle.value() - 60.0, range.positive.budget);
        arc.add(range.arc.value() - 120.0, range.arc_budget);
    }
    // A turning point cannot be told from a short hold in noise, so its uncertainty is on the safe side.
    const double largest = hold_s == 0.0 ? 1.45 : 1.2;
    CHECK(positive.stated_over_true() > 0.8);
    CHECK(positive.stated_over_true() < largest);
    CHECK(arc.stated_over_true() > 0.8);
    CHECK(arc.stated_over_true() < largest + 0.1);
}

// Mean of five repetitions whose arcs scatter by 2 deg: the 95 % interval must hold the true mean in 95 % of the trials
// (1.2 % standard error of that share with 300 trials).
TEST_CASE("the expanded uncertainty of the mean arc covers the truth as often as it says",
          "[movement][range_of_motion]") {
    Noise draw(5);
    int covered = 0;
    for (int trial = 0; trial < 300; ++trial) {
        std::vector<Waypoint> waypoints{{0, 0}, {1, 0}};
        for (int i = 0; i < 5; ++i) {
            const double t = waypoints.back().time_s;
            waypoints.insert(waypoints.end(), {{t + 1, 100 + 2 * draw()}, {t + 2, 0}, {t + 2.5, 0}});
        }
        const auto trace = trace_from_angles(minimum_jerk_path(waypoints, 50), Hertz(50));
        const auto rows = repetitions(trace, movement_phases(trace), {.with_smoothness = false}).rows;
        const auto range = range_of_motion(trace, rows);
        covered += std::abs(range.mean_arc->mean.value() - 100) <= range.mean_arc->budget.expanded_uncertainty();
    }
    CHECK_THAT(covered / 300.0, WithinAbs(0.95, 0.036));
}

TEST_CASE("what the filter takes off a fast peak is in the uncertainty", "[movement][range_of_motion]") {
    const auto fast = [](double t) { return 30.0 * std::sin(2 * std::numbers::pi * 3.0 * t); };
    const auto range = range_of_motion(filtered_trace(sampled(fast, 4, 200), 200, 0.0));
    const double lost_deg = 30.0 - range.positive.angle.value();
    REQUIRE(lost_deg > 0.5);
    CHECK_THAT(range.positive.budget.standard_uncertainty(), WithinRel(lost_deg, 0.1));
    CHECK_THAT(range.arc_budget.standard_uncertainty(), WithinRel(2 * lost_deg, 0.1));
}

// Eight tops raised in 0.5 s. Without noise, each shows what the filter adds. Noise of three quarters of that would
// hide it in a third of single tops; their mean shows it.
TEST_CASE("what the filter adds to fast tops is found beneath noise", "[movement][range_of_motion]") {
    std::vector<Waypoint> waypoints{{0, 0}, {1, 0}};
    for (int i = 0; i < 8; ++i) {
        const double t = waypoints.back().time_s;
        waypoints.insert(waypoints.end(), {{t + 0.5, 120}, {t + 1, 0}, {t + 1.5, 0}});
    }
    const auto truth = minimum_jerk_path(waypoints, 100);
    const double added_deg = range_of_motion(filtered_trace(truth, 100, 0.0)).positive.angle.value() - 120.0;
    REQUIRE(added_deg > 0.1);
    const double noise_deg = 0.5 * added_deg / trace_noise(filtered_trace(truth, 100, 1.0)).doubled_cutoff_deg;
    const auto is_found = [](const RangeOfMotion& range) {
        return std::ranges::any_of(range.positive.budget.lines(), [](const BudgetLine& line) {
            return line.input.find("overshoot") != std::string::npos;
        });
    };
    int alone = 0;
    int together = 0;
    for (std::uint64_t seed = 1; seed <= 40; ++seed) {
        const auto trace = filtered_trace(with_noise(truth, noise_deg, seed), 100, noise_deg);
        const auto rows = repetitions(trace, movement_phases(trace), {.with_smoothness = false}).rows;
        REQUIRE(rows.size() == 8);
        alone += is_found(range_of_motion(trace));
        together += is_found(range_of_motion(trace, rows));
    }
    CHECK(together >= 38);
    CHECK(alone < 38);
}

TEST_CASE("an extreme at an edge counts as cut off only while the joint moves", "[movement][range_of_motion]") {
    const auto whole = minimum_jerk_path({{0, 2}, {1, 2}, {2, 90}, {3, 90}}, 100);
    CHECK(range_of_motion(trace_from_angles(whole, Hertz(100))).findings.empty());
    const std::vector<double> cut(whole.begin(), whole.begin() + 160);
    const auto range = range_of_motion(trace_with(cut, {}));
    CHECK(range.positive.at_edge);
    CHECK_FALSE(range.negative.at_edge);
    REQUIRE(range.findings.size() == 1);
    CHECK(range.findings[0].code() == "extreme-at-edge");
    CHECK_THAT(range.findings[0].text, ContainsSubstring("flexion"));
    const auto falling = range_of_motion(trace_from_angles(reversed(cut), Hertz(100)));
    CHECK(falling.positive.at_edge);
}

TEST_CASE("the opposite sign convention swaps and negates the extremes", "[movement][range_of_motion]") {
    const auto angles = with_noise(minimum_jerk_path(repeated(3, 5, 95), 100), 0.4);
    const auto trace = filtered_trace(angles, 100, 0.4);
    const auto mirror = filtered_trace(negated(angles), 100, 0.4);
    const auto range = range_of_motion(trace, repetitions(trace, movement_phases(trace)).rows, still_postures(trace));
    const auto mirrored =
        range_of_motion(mirror, repetitions(mirror, movement_phases(mirror)).rows, still_postures(mirror));
    CHECK(mirrored.positive.angle == -range.negative.angle);
    CHECK(mirrored.negative.angle == -range.positive.angle);
    CHECK(mirrored.positive.sample == range.negative.sample);
    CHECK(mirrored.arc == range.arc);
    CHECK(mirrored.mean_arc->mean == range.mean_arc->mean);
    CHECK(mirrored.held_positive->mean == -range.held_negative->mean);
    CHECK(mirrored.positive.budget.standard_uncertainty() == range.negative.budget.standard_uncertainty());
}

TEST_CASE("a single repetition has the noise in place of the spread", "[movement][range_of_motion]") {
    const auto trace = filtered_trace(with_noise(minimum_jerk_path(repeated(1, 5, 95), 100), 0.4), 100, 0.4);
    const auto range = range_of_motion(trace, repetitions(trace, movement_phases(trace)).rows);
    REQUIRE(range.mean_arc);
    CHECK(range.mean_arc->count == 1);
    CHECK_FALSE(range.mean_arc->sd.is_set());
    CHECK(range.mean_arc->budget.standard_uncertainty() > 0.1);
}

TEST_CASE("gaps are skipped and stillness has no arc", "[movement][range_of_motion]") {
    const double missing = std::numeric_limits<double>::quiet_NaN();
    const auto range =
        range_of_motion(trace_from_angles({missing, 3, 4, 5, missing, missing, -2, -3, -4, missing}, Hertz(1)));
    CHECK(range.positive.angle.value() == 5.0);
    CHECK(range.positive.sample == 3);
    CHECK(range.negative.angle.value() == -4.0);
    CHECK(range_of_motion(trace_from_angles({7, 7, 7}, Hertz(1))).arc.value() == 0.0);
}
