#include <jointrom/analysis/measurements.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

using namespace jointrom;
using Catch::Matchers::WithinAbs;

TEST_CASE("a trace is measured as each measurement does it alone", "[analysis][measurements]") {
    const auto made = test::with_noise(test::minimum_jerk_path(test::repeated(3, -2.0, 118.5), 200.0), 0.2);
    const AngleTrace trace = test::filtered_trace(made, 200.0, 0.2);
    const Measurements all = measure(trace, {});
    const MovementPhases phases = movement_phases(trace);
    REQUIRE(all.phases.phases.size() == phases.phases.size());
    REQUIRE(all.repetitions.rows.size() == 3);
    CHECK_THAT(all.range.arc.value(), WithinAbs(120.5, 1.0));
    REQUIRE(all.range.mean_arc);
    CHECK(all.range.mean_arc->count == 3);
    // A minimum-jerk movement peaks at 1.875 times its mean speed (closed form); here 120.5 deg in 1 s.
    CHECK_THAT(std::abs(all.peak_velocity().value()), WithinAbs(1.875 * 120.5, 5.0));
    CHECK(measure(trace, {}, false).repetitions.rows.front().smoothness.spectral_arc_length !=
          all.repetitions.rows.front().smoothness.spectral_arc_length);
}

TEST_CASE("a trace without movement has no peak velocity", "[analysis][measurements]") {
    const AngleTrace trace = trace_from_angles(std::vector<double>(500, 3.0), Hertz(100.0));
    const Measurements all = measure(trace, {});
    CHECK_FALSE(all.peak_velocity().is_set());
    CHECK(contains(all.findings(), "no-movement"));
}
