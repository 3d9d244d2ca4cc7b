#include <jointrom/signal/derivative.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

namespace {

const Hertz rate(100.0);

double largest(const std::vector<double>& x) {
    double result = 0.0;
    for (const double value : x) {
        result = std::max(result, std::abs(value));
    }
    return result;
}

}  // namespace

// numpy.gradient 1.24.2 and the three-point second difference.
TEST_CASE("derivatives are the reference ones", "[signal][derivative]") {
    const auto reference = reference_json("reference/signal/gradient.json");
    const auto x = filter_test_signal();
    const std::vector<double> first = reference["first"];
    CHECK(largest_difference(first_derivative(x, rate), first) < 1e-9 * largest(first));
    CHECK(largest_difference(first_derivative(x, rate, EndDifference::second_order), reference["first_order2_edges"]) <
          1e-9 * largest(first));
    const std::vector<double> second = reference["second_inner"];
    const auto computed = second_derivative(x, rate);
    CHECK(largest_difference({computed.begin() + 1, computed.end() - 1}, second) < 1e-9 * largest(second));
}

// x = a + b t + c t^2 + d t^3 at t = i / 40 s, by hand.
TEST_CASE("polynomials are differentiated exactly up to the order of the rule", "[signal][derivative]") {
    std::vector<double> parabola;
    std::vector<double> cubic;
    std::vector<double> slope;
    std::vector<double> curvature;
    for (int i = 0; i < 12; ++i) {
        const double t = i / 40.0;
        parabola.push_back(3.0 - 20.0 * t + 70.0 * t * t);
        slope.push_back(-20.0 + 140.0 * t);
        cubic.push_back(parabola.back() + 11.0 * t * t * t);
        curvature.push_back(140.0 + 66.0 * t);
    }
    CHECK(largest_difference(first_derivative(parabola, Hertz(40.0), EndDifference::second_order), slope) < 1e-9);
    CHECK(largest_difference(second_derivative(cubic, Hertz(40.0), EndDifference::second_order), curvature) < 1e-9);
    CHECK(largest_difference(second_derivative(parabola, Hertz(40.0)), std::vector<double>(12, 140.0)) < 1e-9);
    // First-order ends look half a sample inward: 140 / 80 too high at the start, too low at the end.
    const auto first_order = first_derivative(parabola, Hertz(40.0));
    CHECK_THAT(first_order.front() - slope.front(), WithinAbs(1.75, 1e-9));
    CHECK_THAT(first_order.back() - slope.back(), WithinAbs(-1.75, 1e-9));
}

TEST_CASE("reversing time reverses the first derivative's sign", "[signal][derivative]") {
    const EndDifference ends = GENERATE(EndDifference::first_order, EndDifference::second_order);
    auto x = filter_test_signal();
    const auto forward = first_derivative(x, rate, ends);
    std::ranges::reverse(x);
    auto backward = first_derivative(x, rate, ends);
    std::ranges::reverse(backward);
    for (double& value : backward) {
        value = -value;
    }
    CHECK(largest_difference(forward, backward) < 1e-9);
}

TEST_CASE("pieces between gaps have their own ends", "[signal][derivative]") {
    const std::vector<double> gapped{missing, 1.0, 2.5, missing, 4.0, missing, 7.0, 7.0, 9.0};
    CHECK(largest_difference(first_derivative(gapped, Hertz(10.0)),
                             {missing, 15.0, 15.0, missing, missing, missing, 0.0, 10.0, 20.0}) < 1e-12);
    CHECK(largest_difference(second_derivative(gapped, Hertz(10.0), EndDifference::second_order),
                             {missing, missing, missing, missing, missing, missing, 200.0, 200.0, 200.0}) < 1e-12);
    CHECK(first_derivative({}, rate).empty());
    CHECK(std::isnan(first_derivative(std::vector{3.0}, rate).front()));
}
