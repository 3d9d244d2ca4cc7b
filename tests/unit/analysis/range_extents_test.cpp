#include <jointrom/analysis/range_extents.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

TEST_CASE("extents of a range count beyond neutral in their own direction", "[analysis][range_extents]") {
    TraceUncertainty known;
    known.gain_relative = 0.01;
    known.linearity = Degrees(0.4);
    known.zero = Degrees(0.5);
    const auto angles = minimum_jerk_path({{0, -8}, {1, -8}, {2, 120}, {3, 120}, {4, -8}, {5, -8}}, 100);
    const auto trace = trace_from_angles(angles, Hertz(100), Seconds(0), joint_motion("elbow"), Side::right, known);
    const auto rows = repetitions(trace, movement_phases(trace)).rows;
    const RangeOfMotion range = range_of_motion(trace, rows, still_postures(trace));
    for (const RangeFigure figure : {RangeFigure::extreme, RangeFigure::held, RangeFigure::mean}) {
        const auto extents = measured_extents(range, figure);
        REQUIRE(extents.size() == 3);
        CHECK(extents[0].part == MotionPart::positive);
        CHECK_THAT(extents[0].extent.value(), WithinAbs(120.0, 0.2));
        CHECK(extents[1].part == MotionPart::negative);
        CHECK_THAT(extents[1].extent.value(), WithinAbs(8.0, 0.2));  // 8 deg beyond straight
        CHECK_THAT(extents[2].extent.value(), WithinAbs(128.0, 0.3));
        // Gain 1.28 and twice linearity 0.4; the zero cancels.
        CHECK_THAT(extents[2].budget.standard_uncertainty(), WithinAbs(std::sqrt(1.28 * 1.28 + 2 * 0.16), 0.05));
    }
}

TEST_CASE("a range without held postures or repetitions has no such extents", "[analysis][range_extents]") {
    const RangeOfMotion range = range_of_motion(trace_from_angles({0, 5, 9, 5}, Hertz(1)));
    CHECK(measured_extents(range, RangeFigure::held).empty());
    CHECK(measured_extents(range, RangeFigure::mean).empty());
    CHECK(measured_extents(range).size() == 3);
    CHECK(range_figure_named("held") == RangeFigure::held);
    CHECK_THROWS_AS(range_figure_named("best"), Failure);
}
