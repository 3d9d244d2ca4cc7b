#include <jointrom/figure/ticks.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;

namespace {
constexpr double missing = std::numeric_limits<double>::quiet_NaN();
}

TEST_CASE("Ticks are the round numbers within an interval", "[figure][ticks]") {
    struct Case {
        Interval interval;
        std::size_t at_most;
        TickSteps steps;
        double step;
        std::size_t count;
        int decimals;
    };
    // 105 to 543 with five labels: steps of 100 in P. S. Heckbert 1990 (from memory). The others by hand.
    const Case cases[] = {
        {{105.0, 543.0}, 5, TickSteps::decimal, 100.0, 4, 0}, {{0.0, 1.0}, 11, TickSteps::decimal, 0.1, 11, 1},
        {{0.0, 1.0}, 10, TickSteps::decimal, 0.2, 6, 1},      {{-5.0, 150.0}, 7, TickSteps::degrees, 30.0, 6, 0},
        {{-4.2, 96.0}, 9, TickSteps::degrees, 15.0, 7, 0},    {{-4.2, 96.0}, 12, TickSteps::degrees, 10.0, 10, 0},
        {{0.0, 8.0}, 5, TickSteps::degrees, 2.0, 5, 0},       {{0.0, 1500.0}, 5, TickSteps::degrees, 360.0, 5, 0},
        {{0.0, 9000.0}, 5, TickSteps::degrees, 2000.0, 5, 0}, {{0.00031, 0.00048}, 5, TickSteps::decimal, 5e-05, 3, 5},
        {{-2.5e9, 2.5e9}, 6, TickSteps::decimal, 1e9, 5, 0},  {{1e15, 1e15 + 8.0}, 5, TickSteps::decimal, 2.0, 5, 0},
        {{0.0, 25.96}, 6, TickSteps::decimal, 5.0, 6, 0},     {{7.1, 7.3}, 1, TickSteps::decimal, 0.2, 1, 1},
    };
    for (const Case& c : cases) {
        INFO(c.interval.low << " to " << c.interval.high << ", at most " << c.at_most);
        const Ticks ticks = nice_ticks(c.interval, c.at_most, c.steps);
        CHECK_THAT(ticks.step, WithinRel(c.step, 1e-12));
        CHECK(ticks.values.size() == c.count);
        CHECK(ticks.decimals == c.decimals);
        for (const double value : ticks.values) {
            CHECK(c.interval.contains(value));
        }
    }
    CHECK(nice_ticks({0.0, 1.0}, 11).values[3] == 0.3);
    CHECK(nice_ticks({-0.3, 0.3}, 7).text(-0.2) == "\u22120.2");
    CHECK(nice_ticks({-1.0, 1.0}, 3).text(-0.0) == "0");
}

TEST_CASE("Ticks never number more than asked for, whatever the interval", "[figure][ticks]") {
    for (int exponent = -12; exponent <= 12; ++exponent) {
        for (const double span : {1.0, 1.7, 2.3, 4.9, 9.99}) {
            for (const double low : {-3.3, -0.5, 0.0, 0.7, 12.0}) {
                const double size = span * std::pow(10.0, exponent);
                const Interval interval{low * size, low * size + size};
                for (const std::size_t at_most : {2U, 5U, 9U}) {
                    for (const TickSteps steps : {TickSteps::decimal, TickSteps::degrees}) {
                        const Ticks ticks = nice_ticks(interval, at_most, steps);
                        CHECK(ticks.values.size() <= at_most);
                        CHECK(size / ticks.step >= 0.15 * static_cast<double>(at_most));
                    }
                }
            }
        }
    }
}

TEST_CASE("An axis has a length, even for one value or none", "[figure][ticks]") {
    CHECK(axis_interval(std::nullopt) == Interval{0.0, 1.0});
    CHECK(axis_interval(Interval{0.0, 0.0}).span() > 0.0);
    CHECK(axis_interval(Interval{0.0, 0.0}, {0.0, 0.0, 10.0}) == Interval{-5.0, 5.0});
    CHECK(axis_interval(Interval{140.0, 141.0}, {0.0, 0.0, 10.0}) == Interval{135.5, 145.5});
    CHECK(axis_interval(Interval{0.0, 100.0}, {0.05, 0.1, 0.0}) == Interval{-5.0, 110.0});
    CHECK(axis_interval(Interval{1e15, 1e15}).contains(1e15));
    CHECK(axis_interval(Interval{-1e300, 1e300}).contains(1e300));
}

TEST_CASE("The extent leaves out what is missing or cannot be drawn", "[figure][ticks]") {
    const double values[] = {missing, 2.5, -1.5, std::numeric_limits<double>::infinity(), -1e305};
    CHECK(extent_of(values) == Interval{-1.5, 2.5});
    CHECK_FALSE(extent_of(std::span(values, 1)));
    CHECK(joined(std::nullopt, Interval{1.0, 2.0}) == Interval{1.0, 2.0});
    CHECK(joined(Interval{0.0, 1.5}, Interval{1.0, 2.0}) == Interval{0.0, 2.0});
}

TEST_CASE("A scale maps the ends of its values to its pixels", "[figure][ticks]") {
    const Scale up{{-10.0, 150.0}, 400.0, 80.0};
    CHECK(up(-10.0) == 400.0);
    CHECK(up(150.0) == 80.0);
    CHECK(up(70.0) == 240.0);
}
