#include <jointrom/angle/control_point.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>

using namespace jointrom;

namespace {

/// Five points with residuals 0.5, -0.5, 0, -0.5, 0.5 about 30 deg per V: s = sqrt(1 / 3) deg, three degrees of
/// freedom.
Calibration line() {
    Findings findings;
    std::vector<CalibrationPoint> points;
    const double residual_deg[] = {0.5, -0.5, 0.0, -0.5, 0.5};
    for (int i = 0; i < 5; ++i) {
        points.push_back({.known_deg = 30.0 * i + residual_deg[i], .reading = 1.0 * i});
    }
    return fit_calibration(points, {.unit = "V"}, findings);
}

}  // namespace

TEST_CASE("a control point is inside, outside or undecided by its expanded uncertainty", "[angle][control_point]") {
    // At the mean reading u^2 = s^2 (1 + 1/5) = 0.4 deg^2; t(0.975, 3) = 3.182446, so U = 2.0128 deg.
    const double expanded_u_deg = 3.182446305284263 * std::sqrt(0.4);
    struct Row {
        double known_deg;
        Conformity expected;
        const char* code;
    };
    for (const Row& row : {Row{62.9, Conformity::inside, ""}, Row{57.1, Conformity::inside, ""},
                           Row{63.1, Conformity::undecided, "control-point-undecided"},
                           Row{66.9, Conformity::undecided, "control-point-undecided"},
                           Row{67.1, Conformity::outside, "control-point-missed"},
                           Row{52.9, Conformity::outside, "control-point-missed"}}) {
        CAPTURE(row.known_deg);
        Findings findings;
        const ControlResult result =
            judge_control_point(line(), {.known_deg = row.known_deg, .reading = 2.0}, 5.0, findings);
        CHECK(result.verdict == row.expected);
        CHECK_THAT(result.error_deg.value, WithinAbs(60.0 - row.known_deg, 1e-9));
        CHECK_THAT(result.error_deg.u, WithinAbs(std::sqrt(0.4), 1e-9));
        CHECK_THAT(result.expanded_u_deg, WithinAbs(expanded_u_deg, 1e-6));
        CHECK(findings.size() == (row.expected == Conformity::inside ? 0U : 1U));
        CHECK((findings.empty() || findings[0].code() == row.code));
    }
}

TEST_CASE("an uncertain known angle widens the guard band", "[angle][control_point]") {
    Findings findings;
    const ControlResult result =
        judge_control_point(line(), {.known_deg = 62.0, .known_u_deg = 2.5, .reading = 2.0}, 5.0, findings);
    CHECK(result.verdict == Conformity::undecided);
    CHECK_THAT(result.error_deg.u, WithinAbs(std::sqrt(0.4 + 6.25), 1e-9));
}

TEST_CASE("a control point without a reading or a tolerance is refused", "[angle][control_point]") {
    Findings findings;
    CHECK_THROWS_AS(judge_control_point(line(), {.known_deg = 60.0}, 5.0, findings), Failure);
    CHECK_THROWS_AS(judge_control_point(line(), {.known_deg = 60.0, .reading = 2.0}, 0.0, findings), Failure);
}
