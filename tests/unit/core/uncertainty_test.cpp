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

// An electrogoniometer reading: resolution 0.1 deg, mean of 5 with SD 1.2 deg, calibration U = 1.0 deg with k = 2.
// Computed with SciPy 1.10.1.
TEST_CASE("the budget of a goniometer reading agrees with SciPy", "[core][uncertainty]") {
    Budget budget;
    budget.add({.input = "resolution", .u = rectangular_u(0.05)});
    budget.add({.input = "repeatability", .u = 1.2 / std::sqrt(5.0), .degrees_of_freedom = 4.0});
    budget.add({.input = "calibration", .u = 0.5});
    CHECK_THAT(budget.standard_uncertainty(), WithinAbs(0.7340526774921083, 1e-14));
    CHECK_THAT(budget.effective_degrees_of_freedom(), WithinRel(14.001801751114543, 1e-12));
    CHECK_THAT(budget.coverage_factor(), WithinRel(2.144786687917804, 1e-12));
    CHECK_THAT(budget.expanded_uncertainty(), WithinRel(1.574386410915495, 1e-12));
}

// JCGM 100:2008 H.1 (end gauge, table H.1; from memory): u_c = 32 nm, effective degrees of freedom 16, k = 2.92 for
// 99 %, U = 93 nm.
TEST_CASE("the end gauge of JCGM 100 has its published uncertainty", "[core][uncertainty]") {
    Budget length_nm;
    length_nm.add({"calibration of the standard", 25.0, 1.0, 18.0});
    length_nm.add({"measured difference", 9.7, 1.0, 25.6});
    length_nm.add({"difference of expansion", 1e-6 / std::sqrt(3.0) * 0.1 * 50e6, 1.0, 50.0});
    length_nm.add({"difference of temperature", 16.6, 1.0, 2.0});
    CHECK_THAT(length_nm.standard_uncertainty(), WithinAbs(32.0, 0.5));
    CHECK_THAT(length_nm.effective_degrees_of_freedom(), WithinAbs(16.7, 0.3));
    CHECK_THAT(length_nm.coverage_factor(0.99), WithinAbs(2.92, 0.005));
    CHECK_THAT(length_nm.expanded_uncertainty(0.99), WithinAbs(93.0, 1.0));
}

// JCGM 100:2008 G.4.3 (from memory): relative uncertainties of 0.25, 0.57 and 0.82 % from 10, 5 and 15 readings give
// 1.03 %, 19.0 degrees of freedom, k = 2.09, U = 2.2 %.
TEST_CASE("the product of JCGM 100 G.4 has its published coverage", "[core][uncertainty]") {
    Budget percent;
    percent.add({"first factor", 0.25, 1.0, 9.0});
    percent.add({"second factor", 0.57, 1.0, 4.0});
    percent.add({"third factor", 0.82, 1.0, 14.0});
    CHECK_THAT(percent.standard_uncertainty(), WithinAbs(1.03, 0.005));
    CHECK_THAT(percent.effective_degrees_of_freedom(), WithinAbs(19.0, 0.05));
    // The GUM's example rounds 18.98 to 19 degrees of freedom; here they are cut down to 18, as G.4.1 also allows.
    CHECK_THAT(student_factor(0.95, 19.0), WithinAbs(2.09, 0.005));
    CHECK_THAT(percent.expanded_uncertainty(), WithinAbs(2.2, 0.05));
}

TEST_CASE("lines from the same repeats share their degrees of freedom", "[core][uncertainty]") {
    Budget budget;
    budget.add({.input = "gain", .u = 3.0, .degrees_of_freedom = 5.0, .repeats = "calibration"});
    budget.add({.input = "posture", .u = 2.0, .degrees_of_freedom = 7.0});
    budget.add({.input = "scatter", .u = 4.0, .degrees_of_freedom = 5.0, .repeats = "calibration"});
    CHECK_THAT(budget.effective_degrees_of_freedom(), WithinRel(29.0 * 29.0 / (625.0 / 5.0 + 16.0 / 7.0), 1e-12));
}

TEST_CASE("an error that two results share cancels in their difference, and only there", "[core][uncertainty]") {
    const auto angle = [](double angle_deg) {
        Budget budget;
        budget.add({.input = "gain", .u = 0.02, .sensitivity = angle_deg, .common_to = CommonTo::calibration});
        budget.add({.input = "zero", .u = 0.7, .common_to = CommonTo::recording});
        budget.add({.input = "noise", .u = 0.3});
        return budget;
    };
    struct Row {
        CommonTo common;
        double variance;  // by hand
    };
    for (const Row& row :
         {Row{CommonTo::recording, 2.8 * 2.8 + 2 * 0.09}, Row{CommonTo::calibration, 2.8 * 2.8 + 0.98 + 0.18},
          Row{CommonTo::this_value, 2.4 * 2.4 + 0.4 * 0.4 + 0.98 + 0.18}}) {
        const Budget arc = difference(angle(120.0), angle(-20.0), row.common);
        CHECK_THAT(arc.standard_uncertainty(), WithinRel(std::sqrt(row.variance), 1e-12));
    }
    Budget extra = angle(-20.0);
    extra.add({.input = "drift", .u = 1.0});
    CHECK_THAT(difference(angle(120.0), extra, CommonTo::recording).standard_uncertainty(),
               WithinRel(std::sqrt(2.8 * 2.8 + 0.18 + 1.0), 1e-12));
    CHECK(difference(angle(5.0), angle(5.0), CommonTo::recording).lines().size() == 1);
}
