#include <jointrom/core/uncertainty.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>

using namespace jointrom;

// JCGM 100:2008 table G.2 gives t_95(v): 2.23 for 10, 2.09 for 20, 1.960 for infinite degrees of freedom.
TEST_CASE("coverage factors are Student's", "[core][uncertainty]") {
    CHECK_THAT(student_factor(0.95, 10), WithinAbs(2.23, 0.005));
    CHECK_THAT(student_factor(0.95, 20), WithinAbs(2.09, 0.005));
    CHECK_THAT(student_factor(0.95, std::numeric_limits<double>::infinity()), WithinAbs(1.960, 0.0005));
    // Student's t, p = 0.975, 9 degrees of freedom: SciPy 1.10.1, polished with mpmath at 30 digits.
    CHECK_THAT(student_factor(0.95, 9), WithinAbs(2.2621571627982044, 1e-12));
}

TEST_CASE("contributions add in squares and degrees of freedom combine by Welch and Satterthwaite",
          "[core][uncertainty]") {
    Budget budget;
    budget.add({.input = "calibration", .u = 0.3, .sensitivity = -2.0, .degrees_of_freedom = 4.0});
    budget.add({.input = "resolution", .u = 0.8});
    CHECK_THAT(budget.standard_uncertainty(), WithinAbs(1.0, 1e-15));
    CHECK_THAT(budget.effective_degrees_of_freedom(), WithinRel(4.0 / std::pow(0.6, 4), 1e-12));  // by hand: 30.86
    CHECK_THAT(budget.expanded_uncertainty(), WithinRel(student_factor(0.95, 30), 1e-12));
    CHECK(Budget().standard_uncertainty() == 0.0);
    CHECK(std::isinf(Budget().effective_degrees_of_freedom()));
}
