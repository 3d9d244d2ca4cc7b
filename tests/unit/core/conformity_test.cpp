#include <jointrom/core/conformity.hpp>

#include <support/catch.hpp>

#include <cmath>

using namespace jointrom;

TEST_CASE("a value is inside, outside or undecided by the guard band", "[core][conformity]") {
    // A range of motion of 132 to 144 deg, U = 3 deg, k = 2; probabilities computed with SciPy 1.10.1.
    struct Row {
        double value;
        double probability;
        Conformity expected;
    };
    const Row rows[] = {
        {128.0, 0.003830380567589775, Conformity::outside}, {130.0, 0.09121121972586788, Conformity::undecided},
        {131.9, 0.473423535699636, Conformity::undecided},  {132.1, 0.5265764643003625, Conformity::undecided},
        {135.0, 0.9772498670652331, Conformity::inside},    {138.6, 0.9998354788659347, Conformity::inside},
        {140.0, 0.9961695712193765, Conformity::inside},    {143.0, 0.7475074624529648, Conformity::undecided},
        {145.1, 0.2316775746347995, Conformity::undecided}, {150.0, 3.167124183311986e-05, Conformity::outside},
    };
    for (const Row& row : rows) {
        CAPTURE(row.value);
        CHECK(conformity(row.value, {132.0, 144.0}, 3.0) == row.expected);
        CHECK_THAT(conformity_probability({row.value, 1.5}, {132.0, 144.0}), WithinAbs(row.probability, 1e-12));
    }
}

TEST_CASE("one-sided and two-sided probabilities agree with JCGM 106", "[core][conformity]") {
    // Inputs of the examples in JCGM 106:2012 clause 7 from memory; further digits computed with SciPy 1.10.1.
    const double none = std::numeric_limits<double>::infinity();
    CHECK_THAT(conformity_probability({-5.47, 0.05}, {-none, -5.40}), WithinAbs(0.9192433407662289, 1e-12));
    CHECK_THAT(conformity_probability({509.7, 8.6}, {490.0, none}), WithinAbs(0.9890095473848222, 1e-12));
    CHECK_THAT(conformity_probability({13.6, 1.8}, {12.5, 16.3}), WithinAbs(0.6626297864953079, 1e-12));
}

TEST_CASE("without uncertainty the limits alone decide and borders are inside", "[core][conformity]") {
    CHECK(conformity(144.0, {132.0, 144.0}, 0.0) == Conformity::inside);
    CHECK(conformity(144.1, {132.0, 144.0}, 0.0) == Conformity::outside);
    CHECK(conformity_probability({144.0, 0.0}, {132.0, 144.0}) == 1.0);
    CHECK(conformity_probability({131.0, 0.0}, {132.0, 144.0}) == 0.0);
    const double missing = std::numeric_limits<double>::quiet_NaN();
    CHECK(conformity(missing, {132.0, 144.0}, 1.0) == Conformity::undecided);
    CHECK(conformity(138.0, {132.0, 144.0}, missing) == Conformity::undecided);
    CHECK(std::isnan(conformity_probability({138.0, missing}, {132.0, 144.0})));
    CHECK(name_of(Conformity::undecided) == "undecided");
    CHECK(conformity(138.0, {132.0, 144.0}, 10.0) == Conformity::undecided);
}
