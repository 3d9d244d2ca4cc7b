#include <jointrom/load/joint_load.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json curl() {
    return reference_json("reference/load/load.json").at("curl");
}

/// 5 kg in the hand of somebody of 75 kg and 1.75 m, as the reference has it.
LoadModel curl_model() {
    const double segment_kg = 1.65;
    return {.limb = {.words = "forearm and hand",
                     .source = "reference",
                     .mass_kg = segment_kg,
                     .com_m = curl().at("r_segment").get<double>(),
                     .inertia_kg_m2 = segment_kg * std::pow(0.827 * 0.2555, 2),
                     .u_mass_relative = 0.1,
                     .u_com_relative = 0.05},
            .masses = {{.mass_kg = 5.0, .at_m = 0.3055, .u_mass_kg = 0.06, .u_at_m = 0.006}},
            .gravity_m_s2 = 9.81};
}

AngleTrace elbow(std::vector<double> angle_deg, double rate_hz = 1000.0, const TraceUncertainty& uncertainty = {}) {
    return trace_from_angles(std::move(angle_deg), Hertz(rate_hz), Seconds(0.0), joint_motion("elbow"), Side::left,
                             uncertainty);
}

AngleTrace lift() {
    return elbow(minimum_jerk_path({{0.0, 10.0}, {1.2, 130.0}}, 1000.0));
}

JointLoad load_of(const AngleTrace& trace, const LoadModel& model) {
    const MovementPhases phases = movement_phases(trace);
    return joint_load(trace, model, phases.phases, repetitions(trace, phases, {.with_smoothness = false}).rows);
}

}  // namespace

// Closed form (work) and NumPy 1.24.2 on a fine grid (peaks): load.json, curl.
TEST_CASE("a minimum jerk curl has the moment and power and work of the closed form", "[load][joint_load]") {
    const auto expected = curl();
    const LoadModel model = curl_model();
    CHECK_THAT(model.horizontal_moment_nm(), WithinRel(expected.at("K").get<double>(), 1e-12));
    CHECK_THAT(model.inertia_kg_m2(), WithinRel(expected.at("I").get<double>(), 1e-12));
    for (const auto& [angle, moment] : expected.at("gravity_moment_at_deg").items()) {
        CHECK_THAT(static_moment_nm(model, Degrees(std::stod(angle))), WithinRel(moment.get<double>(), 1e-12));
    }
    const AngleTrace trace = lift();
    const LoadSeries series = load_series(trace, model);
    const SpanLoad load = load_over(trace, model, series, {0, trace.size()});
    CHECK_THAT(load.work_j, WithinRel(28.979806, 1e-7));
    CHECK_THAT(load.work_j, WithinRel(expected.at("work_closed_form").get<double>(), 1e-9));
    CHECK_THAT(load.concentric_work_j, WithinRel(load.work_j, 1e-9));
    CHECK_THAT(load.eccentric_work_j, WithinAbs(0.0, 1e-9));
    CHECK_THAT(load.peak_moment_nm, WithinAbs(expected.at("peak_total_moment").get<double>(), 1e-4));
    CHECK_THAT(trace.angle_deg()[load.peak_sample], WithinAbs(expected.at("angle_at_peak_total").get<double>(), 0.2));
    CHECK_THAT(load.peak_power_w, WithinAbs(expected.at("peak_power").get<double>(), 1e-3));
    CHECK_THAT(load.mean_power_w, WithinRel(expected.at("mean_power").get<double>(), 1e-3));
    CHECK(load.group == MuscleGroup::positive);
}

TEST_CASE("a static posture needs the force of the closed form", "[load][joint_load]") {
    const auto expected = curl().at("ninety_degrees_static");
    const double moment = static_moment_nm(curl_model(), Degrees(90.0));
    CHECK_THAT(moment, WithinRel(expected.at("total").get<double>(), 1e-12));
    CHECK_THAT(muscle_force_n(moment, muscle_attachment(0.04)),
               WithinRel(expected.at("muscle_force_at_arm_0p04").get<double>(), 1e-12));
    LoadModel load_only = curl_model();
    load_only.limb = {};
    CHECK_THAT(static_moment_nm(load_only, Degrees(90.0)), WithinRel(expected.at("load_only").get<double>(), 1e-12));
}

TEST_CASE("the way back takes up the work that the lift did", "[load][joint_load]") {
    const AngleTrace trace = elbow(reversed(minimum_jerk_path({{0.0, 10.0}, {1.2, 130.0}}, 1000.0)));
    const LoadModel model = curl_model();
    const SpanLoad load = load_over(trace, model, load_series(trace, model), {0, trace.size()});
    CHECK_THAT(load.work_j, WithinRel(curl().at("lowering").at("work").get<double>(), 1e-9));
    CHECK_THAT(load.concentric_work_j, WithinAbs(0.0, 1e-9));
    CHECK(load.group == MuscleGroup::positive);
}

TEST_CASE("without acceleration the moment is that of gravity and the work the same", "[load][joint_load]") {
    LoadModel model = curl_model();
    model.with_inertia = false;
    const AngleTrace trace = lift();
    const LoadSeries series = load_series(trace, model);
    CHECK(series.moment_nm == series.gravity_nm);
    const SpanLoad load = load_over(trace, model, series, {0, trace.size()});
    CHECK_THAT(load.peak_moment_nm, WithinAbs(curl().at("peak_gravity_moment").get<double>(), 1e-3));
    CHECK_THAT(load.work_j, WithinRel(curl().at("work_closed_form").get<double>(), 1e-12));
}

TEST_CASE("phases and repetitions carry their load and the way the muscles work", "[load][joint_load]") {
    const AngleTrace trace = elbow(minimum_jerk_path(repeated(3, 5.0, 120.0), 100.0), 100.0);
    const JointLoad load = load_of(trace, curl_model());
    REQUIRE(load.repetitions.size() == 3);
    double sum = 0.0;
    std::size_t lifts = 0;
    for (const PhaseLoad& row : load.phases) {
        CAPTURE(row.phase.start.value());
        sum += row.load.work_j;
        if (row.phase.kind == PhaseKind::rest) {
            CHECK_FALSE(row.repetition);
            continue;
        }
        REQUIRE(row.repetition);
        CHECK(row.load.group == MuscleGroup::positive);
        CHECK(row.contraction == (row.phase.kind == PhaseKind::raising    ? Contraction::concentric
                                  : row.phase.kind == PhaseKind::lowering ? Contraction::eccentric
                                                                          : Contraction::isometric));
        lifts += row.phase.kind == PhaseKind::raising ? *row.repetition : 0;
    }
    CHECK(lifts == 1 + 2 + 3);
    CHECK_THAT(sum, WithinAbs(load.whole.work_j, 1e-9));  // phases cover the recording, so their work adds up
    for (const RepetitionLoad& row : load.repetitions) {
        CHECK_THAT(row.load.work_j, WithinAbs(0.0, 0.05));
        // g (sum of m L) (cos 5 - cos 120), less what lies outside the speed threshold
        CHECK_THAT(row.load.concentric_work_j,
                   WithinRel(17.805289 * (std::cos(5.0 * std::numbers::pi / 180.0) + 0.5), 0.01));
        CHECK_THAT(row.load.eccentric_work_j, WithinRel(-row.load.concentric_work_j, 0.01));
    }
    CHECK(load.findings.empty());
}

TEST_CASE("sitting knee extension asks for the extensors", "[load][joint_load]") {
    LoadModel model = curl_model();
    model.from_hanging = Degrees(-90.0);
    const auto angle = minimum_jerk_path(repeated(2, 90.0, 10.0), 100.0);  // rests hanging, is stretched and bent again
    const AngleTrace trace = trace_from_angles(angle, Hertz(100), Seconds(0), joint_motion("knee"));
    const JointLoad load = load_of(trace, model);
    REQUIRE(load.repetitions.size() == 2);
    for (const PhaseLoad& row : load.phases) {
        if (row.phase.kind == PhaseKind::lowering) {  // toward extension: the shank goes up
            CHECK(row.contraction == Contraction::concentric);
            CHECK(name_of(row.load.group, trace.motion()) == "extensors");
        } else if (row.phase.kind == PhaseKind::raising) {
            CHECK(row.contraction == Contraction::eccentric);
        }
    }
}

// The same numbers from changed inputs: the budget's first-order sum against differences.
TEST_CASE("the uncertainty of moment and work is what changed inputs make of them", "[load][joint_load]") {
    const TraceUncertainty sensor{
        .gain_relative = 0.02, .linearity = Degrees(0.7), .zero = Degrees(1.1), .noise = Degrees(1e-9)};
    const auto path = minimum_jerk_path({{0.0, 10.0}, {1.2, 130.0}}, 1000.0);
    const AngleTrace trace = elbow(path, 1000.0, sensor);
    const LoadModel model = curl_model();
    const SpanLoad load = load_over(trace, model, load_series(trace, model), {0, trace.size()});
    const std::size_t at = load.peak_sample;

    struct Outcome {
        double moment;
        double work;
    };
    const auto outcome = [&](const LoadModel& changed, const std::vector<double>& angles) {
        const AngleTrace other = elbow(angles);
        const LoadSeries series = load_series(other, changed);
        return Outcome{series.moment_nm[at], load_over(other, changed, series, {0, other.size()}).work_j};
    };
    const Outcome base = outcome(model, path);
    Outcome variance{0.0, 0.0};
    const auto add = [&](const Outcome& changed, double scale) {
        variance.moment += std::pow((changed.moment - base.moment) * scale, 2);
        variance.work += std::pow((changed.work - base.work) * scale, 2);
    };
    const double step = 1e-4;  // of each standard uncertainty
    const auto changed_model = [&](const auto& change) {
        LoadModel changed = model;
        change(changed);
        add(outcome(changed, path), 1.0 / step);
    };
    changed_model([&](LoadModel& m) { m.masses[0].mass_kg += 0.06 * step; });
    changed_model([&](LoadModel& m) { m.masses[0].at_m += 0.006 * step; });
    changed_model([&](LoadModel& m) {
        m.limb.mass_kg *= 1.0 + 0.1 * step;
        m.limb.inertia_kg_m2 *= 1.0 + 0.1 * step;
    });
    changed_model([&](LoadModel& m) {
        m.limb.com_m *= 1.0 + 0.05 * step;
        m.limb.inertia_kg_m2 *= std::pow(1.0 + 0.05 * step, 2);
    });
    changed_model([&](LoadModel& m) { m.from_hanging = m.from_hanging + Degrees(3.0 * step); });
    changed_model([&](LoadModel& m) { m.from_hanging = m.from_hanging + Degrees(1.1 * step); });  // neutral zero
    const auto changed_angle = [&](const auto& change) {
        std::vector<double> angles = path;
        for (std::size_t i = 0; i < angles.size(); ++i) {
            angles[i] = change(i, angles[i]);
        }
        return outcome(model, angles);
    };
    // Of the gain, only what the angle makes of it is in the budget: speed and acceleration count for little.
    const double gain_moment = (static_moment_nm(model, Degrees(path[at] * (1.0 + 0.02 * step))) -
                                static_moment_nm(model, Degrees(path[at]))) /
                               step;
    variance.moment += gain_moment * gain_moment;
    const Outcome gain = changed_angle([&](std::size_t, double angle) { return angle * (1.0 + 0.02 * step); });
    variance.work += std::pow((gain.work - base.work) / step, 2);
    const double line_moment =
        (static_moment_nm(model, Degrees(path[at] + 0.7 * step)) - static_moment_nm(model, Degrees(path[at]))) / step;
    variance.moment += line_moment * line_moment;
    for (const double end_deg : {10.0, 130.0}) {
        const double slope = static_moment_nm(model, Degrees(end_deg)) * std::numbers::pi / 180.0;
        variance.work += std::pow(0.7 * slope, 2);
    }
    CHECK_THAT(load.peak_budget.standard_uncertainty(), WithinRel(std::sqrt(variance.moment), 1e-3));
    CHECK_THAT(load.work_budget.standard_uncertainty(), WithinRel(std::sqrt(variance.work), 1e-3));
}

TEST_CASE("no work is given over a gap", "[load][joint_load]") {
    auto angle = minimum_jerk_path(repeated(3, 5.0, 120.0), 100.0);
    std::fill(angle.begin() + 590, angle.begin() + 640, std::numeric_limits<double>::quiet_NaN());
    const JointLoad load = load_of(elbow(angle, 100.0), curl_model());
    CHECK(std::isnan(load.whole.work_j));
    CHECK(std::isnan(load.whole.concentric_work_j));
    CHECK(std::isnan(load.whole.mean_moment_nm));
    CHECK(load.whole.peak_moment_nm > 15.0);
    CHECK(contains(load.findings, "load-gap"));
    CHECK(std::isnan(load.series.moment_nm[600]));
    for (const PhaseLoad& row : load.phases) {
        CHECK(std::isfinite(row.load.work_j));
    }
}

TEST_CASE("a limb that hangs asks for no muscles that could be told", "[load][joint_load]") {
    const AngleTrace trace = elbow(std::vector<double>(200, 1.0), 100.0, {.linearity = Degrees(2.0)});
    const JointLoad load = load_of(trace, curl_model());
    CHECK(load.whole.group == MuscleGroup::undecided);
    CHECK(name_of(load.whole.group, trace.motion()).empty());
    for (const PhaseLoad& row : load.phases) {
        CHECK(name_of(row.contraction).empty());
    }
}

TEST_CASE("doubtful accelerations are reported", "[load][joint_load]") {
    LoadModel model = curl_model();
    const AngleTrace slow = elbow(minimum_jerk_path(repeated(3, 5.0, 120.0), 2.0), 2.0);
    CHECK(contains(load_of(slow, model).findings, "acceleration-doubtful"));
    const auto noisy_angle = with_noise(minimum_jerk_path(repeated(3, 5.0, 120.0), 100.0), 0.5);
    const AngleTrace noisy = elbow(noisy_angle, 100.0);
    CHECK(contains(load_of(noisy, model).findings, "acceleration-doubtful"));
    const AngleTrace filtered =
        filtered_trace(with_noise(minimum_jerk_path(repeated(3, 5.0, 120.0), 100.0), 0.1), 100.0, 0.1);
    CHECK_FALSE(contains(load_of(filtered, model).findings, "acceleration-doubtful"));
    model.with_inertia = false;
    CHECK(load_of(slow, model).findings.empty());
    CHECK(load_of(noisy, model).findings.empty());
}

TEST_CASE("a posture held with a noisy sensor has the moment of gravity", "[load][joint_load]") {
    const auto path =
        minimum_jerk_path({{0.0, 0.0}, {1.0, 0.0}, {2.0, 90.0}, {6.0, 90.0}, {7.0, 0.0}, {8.0, 0.0}}, 100.0);
    const JointLoad load = load_of(filtered_trace(with_noise(path, 0.5), 100.0, 0.5), curl_model());
    std::size_t holds = 0;
    for (const PhaseLoad& row : load.phases) {
        if (row.phase.kind == PhaseKind::holding) {
            ++holds;
            CHECK_THAT(row.load.peak_moment_nm, WithinRel(curl().at("K").get<double>(), 1e-3));
            CHECK(row.load.peak_budget.lines().back().input.find("acceleration") == std::string::npos);
            CHECK(row.contraction == Contraction::isometric);
        }
    }
    CHECK(holds == 1);
}

// Two hundred recordings of the same lift with new noise: the largest moment is picked from noisy samples.
TEST_CASE("the largest moment of a noisy recording is within its expanded uncertainty", "[load][joint_load]") {
    const auto path = minimum_jerk_path({{0.0, 10.0}, {1.0, 10.0}, {2.2, 130.0}, {3.2, 130.0}}, 100.0);
    LoadModel model = curl_model();
    model.masses[0].u_mass_kg = model.masses[0].u_at_m = 0.0;
    model.limb.u_mass_relative = model.limb.u_com_relative = 0.0;
    model.u_from_hanging = Degrees(0.0);
    const double truth = curl().at("peak_total_moment").get<double>();
    int covered = 0;
    double error = 0.0;
    double u95 = 0.0;
    constexpr int trials = 200;
    for (int seed = 1; seed <= trials; ++seed) {
        const AngleTrace trace = filtered_trace(with_noise(path, 0.3, static_cast<std::uint64_t>(seed)), 100.0, 0.3);
        const MovementPhases phases = movement_phases(trace);
        const SpanLoad load = load_over(trace, model, load_series(trace, model, phases.phases), {0, trace.size()});
        error = std::max(error, std::abs(load.peak_moment_nm - truth));
        u95 = load.peak_budget.expanded_uncertainty();
        covered += std::abs(load.peak_moment_nm - truth) <= u95 ? 1 : 0;
    }
    CHECK(covered >= trials * 93 / 100);
    CHECK(error > 0.5 * u95);  // the uncertainty is not far too large either
}

// White noise of 0.5 deg through the usual filter: its acceleration's SD by experiment.
TEST_CASE("the noise of the acceleration is what the filter leaves", "[load][joint_load]") {
    const AngleTrace trace = filtered_trace(with_noise(std::vector<double>(20000, 30.0), 0.5), 100.0, 0.5);
    double sum = 0.0;
    for (std::size_t i = 100; i < 19900; ++i) {
        sum += trace.acceleration_deg_s2(i) * trace.acceleration_deg_s2(i);
    }
    CHECK_THAT(load_series(trace, curl_model()).acceleration_u_deg_s2, WithinRel(std::sqrt(sum / 19800.0), 0.05));
}
