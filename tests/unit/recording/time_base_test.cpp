#include <jointrom/recording/time_base.hpp>

#include <support/catch.hpp>

#include <limits>
#include <vector>

using namespace jointrom;

namespace {

TimeWindow window(double start, double end) {
    return {Seconds(start), Seconds(end)};
}

}  // namespace

TEST_CASE("a regular time base counts from its start", "[recording][time_base]") {
    const TimeBase times = TimeBase::regular(Seconds(2.5), Hertz(200.0), 1001);
    CHECK(times.is_regular());
    CHECK(times.count() == 1001);
    CHECK(times.rate() == Hertz(200.0));
    CHECK(times.time_s(0) == 2.5);
    CHECK_THAT(times.time_s(1000), WithinAbs(7.5, 1e-12));
}

TEST_CASE("a stamped time base keeps its stamps and has the median interval's rate", "[recording][time_base]") {
    const TimeBase times = TimeBase::stamped({0.5, 0.75, 1.0, 1.25, 3.0});
    CHECK_FALSE(times.is_regular());
    CHECK(times.rate() == Hertz(4.0));
    CHECK(times.time_s(4) == 3.0);
    const TimeBase copy = times;
    CHECK(copy.time_s(1) == 0.75);
}

TEST_CASE("a window takes the samples at both of its ends", "[recording][time_base]") {
    const TimeBase regular = TimeBase::regular(Seconds(0.0), Hertz(10.0), 50);
    CHECK(regular.span(window(0.3, 0.7)) == SampleSpan{3, 8});
    CHECK(regular.span(window(-5.0, 99.0)) == SampleSpan{0, 50});
    CHECK(regular.span(window(0.31, 0.39)).empty());
    CHECK(regular.span(window(7.0, 9.0)).empty());
    const double infinity = std::numeric_limits<double>::infinity();
    CHECK(regular.span(window(-infinity, infinity)) == SampleSpan{0, 50});

    const TimeBase stamped = TimeBase::stamped({0.0, 0.28, 0.51, 0.8, 1.1});
    CHECK(stamped.span(window(0.28, 0.8)) == SampleSpan{1, 4});
    CHECK(stamped.span(window(0.3, 0.5)).empty());
    CHECK(TimeBase().span(window(0.0, 1.0)).empty());
}
