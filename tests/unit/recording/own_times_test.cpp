#include <recording/own_times.hpp>

#include <support/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>
#include <utility>
#include <vector>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// Row numbers where `has_value` says so, else missing.
template <typename HasValue>
std::vector<double> rows_where(std::size_t count, HasValue has_value) {
    std::vector<double> samples;
    for (std::size_t i = 0; i < count; ++i) {
        samples.push_back(has_value(i) ? static_cast<double>(i) : missing);
    }
    return samples;
}

const TimeBase at_1000_hz = TimeBase::regular(Seconds(2.0), Hertz(1000.0), 2000);

}  // namespace

TEST_CASE("a value in every twentieth row is a channel of its own rate", "[recording][own_times]") {
    const auto own = own_times(at_1000_hz, rows_where(2000, [](std::size_t i) { return i % 20 == 7; }), 0.001);
    REQUIRE(own.has_value());
    CHECK(own->times.rate() == Hertz(50.0));
    CHECK(own->times.count() == 100);
    CHECK_THAT(own->times.time_s(0), WithinAbs(2.007, 1e-12));
    CHECK(own->samples[3] == 67.0);
}

TEST_CASE("a slower channel keeps its own gaps", "[recording][own_times]") {
    const auto own = own_times(
        at_1000_hz, rows_where(2000, [](std::size_t i) { return i % 20 == 0 && (i < 400 || i > 500); }), 0.001);
    REQUIRE(own.has_value());
    CHECK(own->times.count() == 100);
    CHECK(std::isnan(own->samples[20]));
    CHECK(std::isnan(own->samples[25]));
    CHECK(own->samples[26] == 520.0);
}

TEST_CASE("a slower rate that no whole number of rows makes is found within a row", "[recording][own_times]") {
    const double rate_hz = 148.148;
    std::vector<double> samples(2000, missing);
    for (double k = 0.0; k < 290.0; k += 1.0) {
        samples[static_cast<std::size_t>(std::round(k * 1000.0 / rate_hz))] = k;
    }
    const auto own = own_times(at_1000_hz, samples, 0.001);
    REQUIRE(own.has_value());
    CHECK_THAT(own->times.rate().value(), WithinRel(rate_hz, 1e-3));
    CHECK(own->samples.size() == 290);
    CHECK(own->samples.back() == 289.0);
}

TEST_CASE("samples missing here and there are no slower channel", "[recording][own_times]") {
    std::mt19937 random(5);
    for (const unsigned missing_share : {5U, 30U, 60U}) {
        CAPTURE(missing_share);
        const auto samples = rows_where(2000, [&](std::size_t) { return random() % 100 >= missing_share; });
        CHECK_FALSE(own_times(at_1000_hz, samples, 0.001).has_value());
    }
    CHECK_FALSE(own_times(at_1000_hz, rows_where(2000, [](std::size_t i) { return i < 900; }), 0.001).has_value());
    CHECK_FALSE(own_times(at_1000_hz, rows_where(2000, [](std::size_t) { return true; }), 0.001).has_value());
    CHECK_FALSE(own_times(at_1000_hz, rows_where(2000, [](std::size_t) { return false; }), 0.001).has_value());
}

TEST_CASE("two clocks written into one table come apart", "[recording][own_times]") {
    // Rows at 1000 Hz, and rows at 64 Hz between them.
    std::vector<std::pair<double, bool>> rows;
    for (int i = 0; i < 3000; ++i) {
        rows.emplace_back(i / 1000.0, false);
    }
    for (int i = 0; i < 192; ++i) {
        rows.emplace_back(std::round(1e4 * (0.0003 + i / 64.0)) / 1e4, true);
    }
    std::ranges::sort(rows);
    std::vector<double> time_s;
    std::vector<double> fast;
    std::vector<double> slow;
    for (const auto& [time, is_slow] : rows) {
        time_s.push_back(time);
        fast.push_back(is_slow ? missing : time);
        slow.push_back(is_slow ? time : missing);
    }
    const TimeBase times = TimeBase::stamped(time_s);
    const auto own_fast = own_times(times, fast, 1e-4);
    REQUIRE(own_fast.has_value());
    CHECK(own_fast->times.rate() == Hertz(1000.0));
    CHECK(own_fast->samples.size() == 3000);
    const auto own_slow = own_times(times, slow, 1e-4);
    REQUIRE(own_slow.has_value());
    CHECK(own_slow->times.rate() == Hertz(64.0));
}

TEST_CASE("a slower channel in rows of varying times keeps its stamps", "[recording][own_times]") {
    std::mt19937 random(2);
    std::vector<double> time_s{0.0};
    for (int i = 1; i < 600; ++i) {
        time_s.push_back(time_s.back() + 0.01 + 0.00001 * static_cast<double>(random() % 1000));
    }
    const auto own =
        own_times(TimeBase::stamped(time_s), rows_where(600, [](std::size_t i) { return i % 4 == 0; }), 1e-5);
    REQUIRE(own.has_value());
    CHECK_FALSE(own->times.is_regular());
    CHECK(own->times.count() == 150);
    CHECK(own->times.time_s(1) == time_s[4]);
}
