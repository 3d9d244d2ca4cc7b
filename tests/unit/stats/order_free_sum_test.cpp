#include "stats/order_free_sum.hpp"

#include "stats_reference.hpp"

#include <jointrom/stats/descriptive.hpp>

#include <algorithm>

using namespace jointrom;
using namespace jointrom::test;

TEST_CASE("cancelling parts leave what is between them", "[stats][order_free_sum]") {
    OrderFreeSum sum(1e12, 3);
    for (const double part : {1e12, 0.125, -1e12}) {
        sum.add(part);
    }
    CHECK(sum.value() == 0.125);
}

TEST_CASE("sizes at both ends of the numbers are summed", "[stats][order_free_sum]") {
    OrderFreeSum large(1e300, 2);
    large.add(1e300);
    large.add(-2.5e299);
    CHECK_THAT(large.value(), WithinRel(7.5e299, 1e-15));
    OrderFreeSum nothing(0.0, 2);
    nothing.add(0.0);
    CHECK(nothing.value() == 0.0);
}

TEST_CASE("descriptions do not depend on the order of the values", "[stats][order_free_sum]") {
    std::vector<double> values;
    std::uint32_t state = 7;
    for (int i = 0; i < 5000; ++i) {
        state = state * 1664525U + 1013904223U;
        values.push_back(0.01 * (state >> 18U) + 1e-7 * (state % 97U));
    }
    const Description as_drawn = describe(values);
    std::ranges::reverse(values);
    const Description backwards = describe(values);
    std::ranges::sort(values);
    const Description sorted = describe(values);
    CHECK(as_drawn.mean == backwards.mean);
    CHECK(as_drawn.sd == backwards.sd);
    CHECK(as_drawn.mean == sorted.mean);
    CHECK(as_drawn.sd == sorted.sd);
}

TEST_CASE("infinite values have no mean", "[stats][order_free_sum]") {
    const Description found = describe(std::vector{1.0, std::numeric_limits<double>::infinity(), 2.0});
    CHECK(found.count == 3);
    CHECK(std::isnan(found.mean));
    CHECK(std::isnan(found.sd));
}
