#include <jointrom/core/conformity.hpp>

#include <jointrom/core/failure.hpp>

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

TEST_CASE("a verdict names the side on which a value lies", "[core][conformity]") {
    // The range of motion of 132 to 144 deg, U = 3 deg, k = 2, as above; states of SciPy 1.10.1: below and above are
    // "fail", within is "pass".
    struct Row {
        double value;
        LimitVerdict expected;
    };
    const Row rows[] = {{128.0, LimitVerdict::below},       {130.0, LimitVerdict::cannot_tell},
                        {131.9, LimitVerdict::cannot_tell}, {132.1, LimitVerdict::cannot_tell},
                        {135.0, LimitVerdict::within},      {138.6, LimitVerdict::within},
                        {140.0, LimitVerdict::within},      {143.0, LimitVerdict::cannot_tell},
                        {145.1, LimitVerdict::cannot_tell}, {150.0, LimitVerdict::above}};
    for (const Row& row : rows) {
        CAPTURE(row.value);
        CHECK(decide({{row.value, 1.5}, 3.0}, {132.0, 144.0}) == row.expected);
    }
}

TEST_CASE("the rules differ between the limit and the guard band", "[core][conformity]") {
    // Upper limit 144 deg only, u = 1.5 deg. False acceptance at the limit moved by 1.6449 u is 5 % (SciPy 1.10.1), so
    // that a value of 144 - 1.6449 * 1.5 = 141.533 deg is within with a probability of just 0.95.
    const double none = std::numeric_limits<double>::infinity();
    const Tolerance limit{-none, 144.0};
    const auto verdict = [&](double value, const char* rule, double slack = 0.0) {
        return decide({{value, 1.5}, 3.0, slack}, limit, decision_rule_named(rule));
    };
    CHECK(verdict(144.0, "simple") == LimitVerdict::within);
    CHECK(verdict(144.1, "simple") == LimitVerdict::above);
    CHECK(verdict(141.0, "guarded") == LimitVerdict::within);
    CHECK(verdict(141.1, "guarded") == LimitVerdict::cannot_tell);
    CHECK(verdict(141.53, "probability") == LimitVerdict::within);
    CHECK(verdict(141.54, "probability") == LimitVerdict::cannot_tell);
    CHECK(verdict(142.73, "probability=0.8") == LimitVerdict::within);  // 0.8416 u below the limit
    CHECK(verdict(142.75, "probability=0.8") == LimitVerdict::cannot_tell);
    CHECK(verdict(146.47, "probability") == LimitVerdict::above);
    // Limits that are themselves known to +-1 deg only.
    CHECK(verdict(143.5, "simple", 1.0) == LimitVerdict::cannot_tell);
    CHECK(verdict(140.1, "guarded", 1.0) == LimitVerdict::cannot_tell);
    CHECK(verdict(140.0, "guarded", 1.0) == LimitVerdict::within);
    CHECK(verdict(140.6, "probability", 1.0) == LimitVerdict::cannot_tell);
}

TEST_CASE("false acceptance shrinks with the guard band as JCGM 106 has it", "[core][conformity]") {
    // Shares of U (k = 2) and false acceptance of a value on the moved limit, computed with SciPy 1.10.1.
    const double rows[][2] = {{0.0, 0.5},
                              {0.5, 0.15865525393145707},
                              {0.83, 0.048457226266722775},
                              {1.0, 0.02275013194817921},
                              {1.5, 0.0013498980316301035}};
    for (const auto& [share, false_acceptance] : rows) {
        const double none = std::numeric_limits<double>::infinity();
        const double probability = conformity_probability({144.0 - share * 3.0, 1.5}, {-none, 144.0});
        CHECK_THAT(1.0 - probability, WithinAbs(false_acceptance, 1e-12));
    }
}

TEST_CASE("a rule is asked for by name and level", "[core][conformity]") {
    CHECK(name_of(decision_rule_named("guarded")) == "guarded=0.95");
    CHECK(name_of(decision_rule_named("simple")) == "simple");
    CHECK(name_of(decision_rule_named("probability=0.9")) == "probability=0.9");
    for (const char* wrong :
         {"", "guard", "simple=0.9", "guarded=95", "probability=", "probability=0.5", "guarded=1"}) {
        CAPTURE(wrong);
        CHECK_THROWS_AS(decision_rule_named(wrong), Failure);
    }
    const double missing = std::numeric_limits<double>::quiet_NaN();
    for (const char* rule : {"simple", "guarded", "probability"}) {
        CHECK(decide({{missing, 1.0}, 2.0}, {0.0, 1.0}, decision_rule_named(rule)) == LimitVerdict::cannot_tell);
    }
    CHECK(decide({{0.5, missing}, missing}, {0.0, 1.0}) == LimitVerdict::cannot_tell);
    CHECK(name_of(LimitVerdict::cannot_tell) == "cannot tell");
}
