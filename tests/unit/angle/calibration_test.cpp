#include <jointrom/angle/calibration.hpp>
#include <jointrom/angle/calibration_file.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>

using namespace jointrom;

namespace {

std::vector<CalibrationPoint> points_of(const std::vector<double>& readings, const std::vector<double>& known_deg) {
    std::vector<CalibrationPoint> points;
    for (std::size_t i = 0; i < readings.size(); ++i) {
        points.push_back({.known_deg = known_deg[i], .reading = readings[i], .source = "given"});
    }
    return points;
}

Calibration calibrated(std::vector<CalibrationPoint> points, const CalibrationOptions& options = {.unit = "V"}) {
    Findings findings;
    return fit_calibration(std::move(points), options, findings);
}

std::string code_of(std::vector<CalibrationPoint> points, const CalibrationOptions& options = {.unit = "V"}) {
    try {
        (void)calibrated(std::move(points), options);
    } catch (const Failure& failure) {
        CHECK(failure.kind() == FailureKind::usage);
        return failure.code();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("the thermometer calibration of the GUM comes out as published and to full digits", "[angle][calibration]") {
    // JCGM 100:2008, H.3: correction b against t - 20 degrees Celsius. Full digits computed with SciPy 1.10.1.
    const auto reference = test::reference_json("reference/angle/calibration.json")["gum_h3"];
    std::vector<double> t = reference["t"];
    for (double& value : t) {
        value -= 20.0;
    }
    const Calibration line = calibrated(points_of(t, reference["b"]));
    CHECK_THAT(line.offset_deg, WithinAbs(-0.1712, 5e-5));
    CHECK_THAT(line.gain_deg_per_unit, WithinAbs(0.00218, 5e-6));
    CHECK_THAT(line.u_offset_deg, WithinAbs(0.0029, 5e-5));
    CHECK_THAT(line.u_gain_deg_per_unit, WithinAbs(0.00067, 5e-6));
    CHECK_THAT(line.correlation, WithinAbs(-0.930, 5e-4));
    CHECK(line.degrees_of_freedom == 9.0);

    CHECK_THAT(line.offset_deg, WithinRel(-0.17120379013134995, 1e-11));
    CHECK_THAT(line.gain_deg_per_unit, WithinRel(0.0021826977398872803, 1e-11));
    CHECK_THAT(line.u_offset_deg, WithinRel(0.0028775978351599572, 1e-11));
    CHECK_THAT(line.u_gain_deg_per_unit, WithinRel(0.0006679387732278324, 1e-11));
    CHECK_THAT(line.correlation, WithinRel(-0.9304296030934461, 1e-11));
    CHECK_THAT(line.residual_sd_deg, WithinRel(0.0034975639635052877, 1e-11));
    const Uncertain at_30 = angle_on_line(line, 10.0);
    CHECK_THAT(at_30.value, WithinRel(-0.14937681273247716, 1e-11));
    CHECK_THAT(at_30.u, WithinRel(0.004138595752854952, 1e-10));
    CHECK_THAT(angle_of_reading(line, 10.0).u, WithinRel(0.005418572550437972, 1e-10));
    CHECK_THAT(at_30.u * student_factor(0.95, line.degrees_of_freedom), WithinRel(0.009362154026247058, 1e-10));
}

TEST_CASE("the protractor calibration reports non-linearity and hysteresis", "[angle][calibration]") {
    const auto reference = test::reference_json("reference/angle/calibration.json")["protractor_multi_point"];
    Findings findings;
    const Calibration line =
        fit_calibration(points_of(reference["volts"], reference["ref_deg"]),
                        {.unit = "V", .motion = joint_motion("elbow"), .side = Side::right}, findings);
    CHECK_THAT(line.gain_deg_per_unit, WithinRel(reference["fit"]["slope"].get<double>(), 1e-12));
    CHECK_THAT(line.offset_deg, WithinRel(reference["fit"]["intercept"].get<double>(), 1e-12));
    CHECK_THAT(line.residual_sd_deg, WithinRel(reference["fit"]["residual_sd"].get<double>(), 1e-11));
    CHECK_THAT(line.nonlinearity_deg, WithinRel(0.5903404538723436, 1e-10));
    CHECK_THAT(line.nonlinearity_pct, WithinRel(0.3935603025815624, 1e-10));
    CHECK_THAT(line.hysteresis_deg, WithinRel(0.6748524124321753, 1e-10));
    CHECK_THAT(line.quadratic_p, WithinRel(0.4805575503714956, 1e-7));  // computed with SciPy 1.10.1
    CHECK_THAT(angle_on_line(line, 1.5).u, WithinRel(0.10261885232424764, 1e-9));
    CHECK_THAT(angle_of_reading(line, 1.5).value, WithinRel(74.76880056240749, 1e-12));
    CHECK_THAT(angle_of_reading(line, 1.5).u, WithinRel(0.3699940564288045, 1e-10));
    for (std::size_t i = 0; i < line.points.size(); ++i) {
        CHECK_THAT(line.residual_deg(line.points[i]), WithinAbs(reference["fit"]["residuals"][i].get<double>(), 1e-9));
    }
    CHECK(line.reading_min == 0.498);
    CHECK(line.reading_max == 2.503);
    CHECK(line.rises_with == "flexion");
    CHECK(line.joint == "elbow");
    CHECK(line.side == Side::right);
    CHECK(findings.empty());
}

TEST_CASE("inverse prediction gives the textbook values", "[angle][calibration]") {
    // Fluorescence calibration of an analytical chemistry textbook, from memory; computed with SciPy 1.10.1.
    const auto reference = test::reference_json("reference/angle/calibration.json")["inverse_prediction"];
    const Calibration line = calibrated(points_of(reference["x"], reference["y"]));
    for (const auto& row : reference["predictions"]) {
        const Uncertain x = reading_at_angle(line, row["y0"].get<double>(), row["m"].get<std::size_t>());
        CHECK_THAT(x.value, WithinRel(row["x0"].get<double>(), 1e-11));
        CHECK_THAT(x.u, WithinRel(row["s_x0"].get<double>(), 1e-10));
    }
    CHECK_THAT(reading_at_angle(line, 13.5, 4).u, WithinAbs(0.14, 0.005));
}

TEST_CASE("two points give offset and gain with the uncertainty of the known angles", "[angle][calibration]") {
    auto points = points_of({0.512, 2.867}, {0.0, 90.0});
    Findings findings;
    const Calibration bare = fit_calibration(points, {.unit = "V"}, findings);
    CHECK_THAT(bare.gain_deg_per_unit, WithinRel(38.21656050955414, 1e-12));
    CHECK_THAT(bare.offset_deg, WithinRel(-19.566878980891723, 1e-12));
    CHECK_THAT(angle_on_line(bare, 4.0).value, WithinRel(133.29936305732485, 1e-12));
    CHECK(std::isnan(bare.u_gain_deg_per_unit));  // nothing is stated, so nothing is known
    CHECK(std::isnan(bare.u_offset_deg));
    CHECK(std::isnan(parse_calibration(calibration_text(bare)).u_gain_deg_per_unit));
    CHECK(contains(findings, "calibration-few-points"));
    CHECK(std::isnan(bare.residual_sd_deg));

    points[0].known_u_deg = points[1].known_u_deg = 0.5;
    const Calibration stated = calibrated(points);
    CHECK_THAT(stated.u_gain_deg_per_unit, WithinRel(0.30025765655479725, 1e-12));  // 0.5 sqrt(2) / 2.355
    CHECK(std::isinf(stated.degrees_of_freedom));
    CHECK_THAT(angle_on_line(stated, 0.512).u, WithinAbs(0.5, 1e-12));  // at a point: the point's own
    CHECK_THAT(angle_on_line(stated, 2.867).u, WithinAbs(0.5, 1e-12));
    CHECK_THAT(angle_on_line(stated, 1.6895).u, WithinAbs(0.5 / std::sqrt(2.0), 1e-12));  // half-way

    points[0].known_u_deg = points[1].known_u_deg = 0.0;
    points[0].reading_sd = 0.02;
    points[0].effective_count = 16.0;
    const Calibration noisy = calibrated(points);
    CHECK_THAT(noisy.u_gain_deg_per_unit, WithinRel(38.21656050955414 * 0.005 / 2.355, 1e-12));
    CHECK_THAT(noisy.degrees_of_freedom, WithinRel(15.0, 1e-9));
}

TEST_CASE("one point moves the offset only", "[angle][calibration]") {
    Findings findings;
    CalibrationPoint point{
        .known_deg = 0.0, .reading = 1.3, .reading_sd = 0.12472191289246469, .effective_count = 10.0};
    const Calibration offset = fit_calibration({point}, {.unit = "deg"}, findings);
    CHECK(contains(findings, "calibration-single-point"));
    CHECK_THAT(offset.offset_deg, WithinAbs(-1.3, 1e-12));
    CHECK_THAT(offset.u_offset_deg, WithinRel(0.039440531887330765, 1e-12));
    CHECK_THAT(angle_on_line(offset, 47.3).value, WithinAbs(46.0, 1e-12));

    const Calibration scaled = calibrated({point}, {.unit = "V", .gain_deg_per_unit = -40.0});
    CHECK_THAT(scaled.offset_deg, WithinAbs(52.0, 1e-12));
    CHECK(code_of({point}) == "calibration-gain-needed");
}

TEST_CASE("points that give no calibration are refused", "[angle][calibration]") {
    CHECK(code_of({}) == "calibration-empty");
    CHECK(code_of(points_of({0.5, 0.5}, {0.0, 90.0})) == "calibration-readings-equal");
    CHECK(code_of(points_of({0.5, 1.5, 1.6}, {45.0, 45.0, 45.0})) == "calibration-angles-equal");
    CHECK(code_of(points_of({0.5, std::nan("")}, {0.0, 90.0})) == "calibration-point-incomplete");
    auto noisy = points_of({0.50, 0.55}, {0.0, 90.0});
    noisy[0].reading_sd = noisy[1].reading_sd = 0.02;
    CHECK(code_of(noisy) == "calibration-readings-equal");
    noisy[1].reading = 0.57;
    CHECK(code_of(noisy) == "accepted");
}

TEST_CASE("a bent sensor and a mistyped point are found", "[angle][calibration]") {
    Findings findings;
    // quadratic term: t = -102.4, p = 2.05e-06 (SciPy 1.10.1)
    const Calibration bent = fit_calibration(
        points_of({0.5, 1.0, 1.5, 2.0, 2.5, 3.0}, {0.0, 31.5, 62.2, 92.1, 121.2, 149.4}), {.unit = "V"}, findings);
    CHECK_THAT(bent.quadratic_p, WithinRel(2.052438993641581e-06, 1e-6));
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "calibration-nonlinear");
    CHECK_THAT(findings[0].text, ContainsSubstring("bend"));

    findings.clear();
    (void)fit_calibration(points_of({0.5, 1.0, 1.5, 2.0, 2.5}, {0.0, 30.0, 60.0, 19.0, 120.0}), {.unit = "V"},
                          findings);
    REQUIRE(contains(findings, "calibration-nonlinear"));
    CHECK_THAT(findings[0].text, ContainsSubstring("19 deg"));
}

TEST_CASE("hysteresis follows the stated approach before the order of the points", "[angle][calibration]") {
    auto points = points_of({0.50, 1.00, 1.50, 1.06, 0.53}, {0.0, 30.0, 60.0, 30.0, 0.0});
    Findings findings;
    const Calibration by_order = fit_calibration(points, {.unit = "V"}, findings);
    CHECK_THAT(by_order.hysteresis_deg, WithinRel(0.06 * by_order.gain_deg_per_unit, 1e-9));
    CHECK(contains(findings, "calibration-hysteresis"));
    for (CalibrationPoint& point : points) {
        point.approach = Approach::rising;
    }
    CHECK(std::isnan(calibrated(points).hysteresis_deg));
}

TEST_CASE("stated uncertainties of the known angles are a floor under the scatter", "[angle][calibration]") {
    auto points = points_of({0.0, 1.0, 2.0, 3.0}, {0.0, 30.0, 60.0, 90.0});
    CHECK_THAT(calibrated(points).u_gain_deg_per_unit, WithinAbs(0.0, 1e-12));
    for (CalibrationPoint& point : points) {
        point.known_u_deg = 0.5;
    }
    const Calibration line = calibrated(points);
    CHECK_THAT(line.u_gain_deg_per_unit, WithinRel(0.5 / std::sqrt(5.0), 1e-12));  // u / sqrt(Sxx)
    CHECK(std::isinf(line.degrees_of_freedom));
}

TEST_CASE("a falling sensor rises with the negative direction", "[angle][calibration]") {
    const Calibration line =
        calibrated(points_of({2.5, 0.5}, {0.0, 120.0}), {.unit = "V", .motion = joint_motion("knee")});
    CHECK(line.gain_deg_per_unit < 0.0);
    CHECK(line.rises_with == "extension");
    CHECK(calibrated(points_of({2.5, 0.5}, {0.0, 120.0})).rises_with.empty());
}
