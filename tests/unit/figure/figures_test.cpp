#include <jointrom/figure/agreement_figure.hpp>
#include <jointrom/figure/angle_activity_figure.hpp>
#include <jointrom/figure/angle_figure.hpp>
#include <jointrom/figure/angle_velocity_figure.hpp>
#include <jointrom/figure/calibration_figure.hpp>
#include <jointrom/figure/class_figure.hpp>
#include <jointrom/figure/cutoff_figure.hpp>
#include <jointrom/figure/ensemble_figure.hpp>
#include <jointrom/figure/sides_figure.hpp>
#include <jointrom/figure/velocity_figure.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/xml.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

MuscleActivity made_muscle(const std::string& name, const AngleTrace& trace) {
    MuscleActivity muscle;
    muscle.unit = "mV";
    muscle.signal.name = name;
    muscle.signal.start = trace.start();
    muscle.signal.rate = Hertz(0.5 * trace.rate().value());
    const std::size_t n = trace.size() / 2;
    for (std::size_t i = 0; i < n; ++i) {
        muscle.signal.envelope.push_back(0.2 + 0.1 * std::sin(static_cast<double>(i) * 0.05));
    }
    return muscle;
}

/// Every figure of one recording, by name.
std::map<std::string, std::string> trial_figures(const AngleTrace& trace, const FigureStyle& style = {}) {
    const MovementPhases phases = movement_phases(trace);
    const Repetitions found = repetitions(trace, phases, {.with_smoothness = false});
    const std::vector<MuscleActivity> muscles{made_muscle("<script>", trace), made_muscle("=1+1", trace)};
    return {{"angle", angle_figure(trace, phases.phases, turning_points(trace), muscles, style)},
            {"alone", angle_figure(trace, {}, {}, {}, style)},
            {"velocity", velocity_figure(trace, phases.phases, style)},
            {"angle-velocity", angle_velocity_figure(trace, found.rows, style)},
            {"angle-activity", angle_activity_figure(trace, phases.phases, muscles, style)},
            {"curve", ensemble_figure(trace, ensemble_curve(trace, found.rows), style)},
            {"cutoff",
             cutoff_figure(residual_analysis(trace.unfiltered_deg(), trace.rate()), "deg", trace.lowpass(), style)}};
}

std::vector<double> repetitions_deg(int count) {
    return test::with_noise(test::minimum_jerk_path(test::repeated(count, 0.0, 120.0), 100.0), 0.3);
}

std::vector<double> with_gap(std::vector<double> samples, double from_share, double to_share) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double share = static_cast<double>(i) / static_cast<double>(samples.size());
        samples[i] = share >= from_share && share < to_share ? missing : samples[i];
    }
    return samples;
}

void check_document(const std::string& name, const std::string& svg) {
    INFO(name);
    CHECK(test::xml_fault(svg) == "");
    CHECK(svg.find("nan") == std::string::npos);
    CHECK(svg.find("inf") == std::string::npos);
    CHECK(svg.find("<script") == std::string::npos);
}

}  // namespace

TEST_CASE("Figures of ordinary and of odd recordings are well-formed and have no missing number in them",
          "[figure][figures]") {
    const std::map<std::string, AngleTrace> traces{
        {"five repetitions",
         trace_from_angles(repetitions_deg(5), Hertz(100.0), Seconds(0.0), joint_motion("elbow"), Side::right)},
        {"one repetition", trace_from_angles(repetitions_deg(1), Hertz(100.0))},
        {"never moving", trace_from_angles(test::with_noise(std::vector<double>(500, 0.0), 0.2), Hertz(100.0))},
        {"constant", trace_from_angles(std::vector<double>(300, 0.0), Hertz(100.0))},
        {"constant far away", trace_from_angles(std::vector<double>(300, 1e6), Hertz(100.0))},
        {"three samples", trace_from_angles({0.0, 1.0, 4.0}, Hertz(2.0))},
        {"gap in the middle", trace_from_angles(with_gap(repetitions_deg(5), 0.4, 0.6), Hertz(100.0))},
        {"almost all missing", trace_from_angles(with_gap(repetitions_deg(3), 0.02, 1.1), Hertz(100.0))},
        {"two samples a second",
         trace_from_angles(test::minimum_jerk_path(test::repeated(3, 0.0, 90.0), 2.0), Hertz(2.0))},
        {"a day", trace_from_angles(repetitions_deg(20), Hertz(0.01), Seconds(40000.0))}};
    for (const auto& [name, trace] : traces) {
        for (const auto& [figure, svg] : trial_figures(trace)) {
            check_document(name + ": " + figure, svg);
        }
        for (const auto& [figure, svg] : trial_figures(trace, {.width_px = 200, .height_px = 150})) {
            check_document(name + ", small: " + figure, svg);
        }
    }
}

TEST_CASE("The same figure has the same bytes, and units on its axes", "[figure][figures]") {
    const AngleTrace trace =
        trace_from_angles(repetitions_deg(4), Hertz(100.0), Seconds(0.0), joint_motion("elbow"), Side::left);
    const auto figures = trial_figures(trace);
    CHECK(figures == trial_figures(trace));
    const std::map<std::string, std::vector<std::string>> labels{
        {"angle",
         {"Elbow angle, flexion + / extension \u2212 (deg)</text>", "Time (s)</text>",
          "&lt;script&gt;, envelope (mV)</text>", "=1+1, envelope (mV)</text>"}},
        {"velocity", {"(deg/s)</text>", "Time (s)</text>"}},
        {"angle-velocity", {"Angular velocity (deg/s)</text>", "(deg)</text>"}},
        {"angle-activity", {"envelope (mV)</text>", "(deg)</text>"}},
        {"curve", {"Part of the repetition (%)</text>", "(deg)</text>"}},
        {"cutoff", {"Cut-off (Hz)</text>", "residual (deg)</text>"}}};
    for (const auto& [name, wanted] : labels) {
        for (const std::string& label : wanted) {
            CHECK_THAT(figures.at(name), ContainsSubstring(label));
        }
    }
}

TEST_CASE("The description of an angle counts what is drawn", "[figure][figures]") {
    // It starts at a top and ends on the way: turning points at both edges.
    const AngleTrace trace = trace_from_angles(
        test::with_noise(
            test::minimum_jerk_path({{0.0, 120.0}, {1.5, 0.0}, {3.0, 110.0}, {4.5, 5.0}, {6.0, 115.0}}, 100.0), 0.1),
        Hertz(100.0));
    const std::vector<TurningPoint> peaks = turning_points(trace);
    const auto inside = std::ranges::count(peaks, false, &TurningPoint::at_edge);
    REQUIRE(inside == 3);
    REQUIRE(peaks.size() > 3);
    const auto count = [](const std::string& text, std::string_view what) {
        int found = 0;
        for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
            ++found;
        }
        return found;
    };
    const std::string svg = angle_figure(trace, {}, peaks, {});
    CHECK_THAT(svg, ContainsSubstring("Marked: 3 turning points and 0 holds; beneath: 0 muscles."));
    CHECK(count(svg, "class=\"mark mark3\"") == 1 + 1);  // one and its place in the legend
    CHECK(count(svg, "class=\"mark mark4\"") == 2 + 1);
    const std::vector<TurningPoint> many(200, *std::ranges::find(peaks, false, &TurningPoint::at_edge));
    CHECK_THAT(angle_figure(trace, {}, many, {}), ContainsSubstring("Marked: 0 turning points and 0 holds"));
    CHECK_THAT(angle_figure(trace, {}, many, {}), ContainsSubstring("200 turning points are too close to be drawn"));
}

TEST_CASE("Long recordings are shown in minutes or hours", "[figure][figures]") {
    CHECK_THAT(angle_figure(trace_from_angles(repetitions_deg(5), Hertz(1.0)), {}, {}, {}),
               ContainsSubstring("Time (min)</text>"));
    CHECK_THAT(angle_figure(trace_from_angles(repetitions_deg(5), Hertz(0.01)), {}, {}, {}),
               ContainsSubstring("Time (h)</text>"));
}

TEST_CASE("A million samples make a small file in which the one that stands out is seen", "[figure][figures]") {
    std::vector<double> angle_deg = test::sampled([](double t) { return 50.0 * std::sin(t); }, 1000.0, 1000.0);
    angle_deg[654321] = 150.0;
    const std::string svg = angle_figure(trace_from_angles(std::move(angle_deg), Hertz(1000.0)), {}, {}, {});
    CHECK(svg.size() < 60000);
    CHECK_THAT(svg, ContainsSubstring("between -50 and 150 deg"));
}

TEST_CASE("Figures of classes are well-formed, with odd names, few values and none", "[figure][figures]") {
    ClassDots dots{.title = "Class", .quantity = "Flexion (deg)", .groups = {}, .note = {}};
    check_document("no groups", class_figure(dots));
    dots.groups.push_back({.name = "left & \"right\"",
                           .lanes = {{.text = "F",
                                      .values = {{"<script>", 150.0}, {"P02", missing}, {"P03", 131.0}},
                                      .lower = 120.0,
                                      .upper = 140.0}},
                           .mean = 140.5});
    dots.groups.push_back({.name = std::string(300, 'g'), .lanes = {{.text = {}, .values = {}}}});
    check_document("two groups", class_figure(dots));
    CHECK_THAT(class_figure(dots), ContainsSubstring("1 outside the normal range"));
    dots.groups.assign(50, dots.groups.front());
    CHECK_THAT(class_figure(dots), ContainsSubstring("The first 30 of 50 groups."));

    SidePairs sides{.title = "Sides", .quantity = "flexion", .pairs = {}, .limit = 5.0, .note = {}};
    check_document("no pairs", sides_figure(sides));
    sides.pairs = {{"<script>", 120.0, 140.0}, {"P02", missing, 131.0}, {"P03", 131.0, 133.0}};
    check_document("pairs", sides_figure(sides));
    CHECK_THAT(sides_figure(sides), ContainsSubstring("of 2 participants. In 1 of them"));
    sides.limit = missing;
    sides.pairs.resize(1);
    check_document("one pair", sides_figure(sides));

    ScorePairs scores{.title = "Agreement", .quantity = "arc", .first = "before", .second = "after", .pairs = {}};
    check_document("no scores", agreement_figure(scores));
    scores.pairs = {{"a", 1.0, 2.0}};
    check_document("one score", agreement_figure(scores));
    scores.pairs.insert(scores.pairs.end(), {{"<b>", 4.0, 4.5}, {"c", 7.0, missing}, {"d", 9.0, 9.25}});
    check_document("scores", agreement_figure(scores));
    CHECK_THAT(agreement_figure(scores), ContainsSubstring("of 3 subjects"));
}

TEST_CASE("A calibration is drawn with one point, two, and many, in readings of any unit", "[figure][figures]") {
    for (const std::size_t count : {1U, 2U, 5U}) {
        std::vector<CalibrationPoint> points;
        for (std::size_t i = 0; i < count; ++i) {
            const auto at = static_cast<double>(i);
            points.push_back({.known_deg = 30.0 * at,
                              .reading = 2.5 - 0.41 * at + (i == 2 ? 0.01 : 0.0),
                              .approach = i % 2 == 0 ? Approach::rising : Approach::falling});
        }
        Findings findings;
        const Calibration calibration = fit_calibration(
            points, {.unit = "<V>", .gain_deg_per_unit = count == 1 ? std::optional(-73.0) : std::nullopt}, findings);
        const std::string svg = calibration_figure(calibration);
        check_document(std::to_string(count) + " points", svg);
        CHECK_THAT(svg, ContainsSubstring("Reading (&lt;V&gt;)</text>"));
        CHECK_THAT(svg, ContainsSubstring("Known angle (deg)</text>"));
    }
}
