#include <recording/even_grid.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <functional>
#include <random>

using namespace jointrom;

namespace {

/// Stamps of samples at `rate_hz`, rounded or cut off to `resolution_s` as a logger writes them.
std::vector<double> stamps(std::size_t count, double rate_hz, double resolution_s, double start_s = 0.0,
                           bool cut_off = false) {
    std::vector<double> time_s;
    for (std::size_t i = 0; i < count; ++i) {
        const double ticks = (start_s + static_cast<double>(i) / rate_hz) / resolution_s;
        time_s.push_back(resolution_s * (cut_off ? std::floor(ticks + 1e-9) : std::round(ticks)));
    }
    return time_s;
}

void leave_out(std::vector<double>& time_s, std::size_t first, std::size_t count) {
    const auto begin = time_s.begin() + static_cast<std::ptrdiff_t>(first);
    time_s.erase(begin, begin + static_cast<std::ptrdiff_t>(count));
}

}  // namespace

TEST_CASE("stamps at an even rate give that rate exactly", "[recording][even_grid]") {
    for (const double rate_hz : {2.0, 12.5, 50.0, 100.0, 200.0, 1000.0}) {
        CAPTURE(rate_hz);
        const auto grid = fit_even_grid(stamps(1201, rate_hz, 0.001, 3.25), 0.001);
        REQUIRE(grid.has_value());
        CHECK(grid->rate_hz == rate_hz);
        CHECK(grid->count == 1201);
        CHECK(grid->start_s == 3.25);
        CHECK(grid->place.empty());
    }
}

TEST_CASE("a rate that its stamps are too coarse for is still found", "[recording][even_grid]") {
    CHECK(fit_even_grid(stamps(600, 60.0, 0.01), 0.01)->rate_hz == 60.0);
    CHECK(fit_even_grid(stamps(1000, 70.0, 0.01), 0.01)->rate_hz == 70.0);
    CHECK(fit_even_grid(stamps(5000, 128.0, 0.001), 0.001)->rate_hz == 128.0);
    // 33.333 Hz stands exactly in its stamps, so it is not pulled to a whole number.
    CHECK_THAT(fit_even_grid(stamps(10, 100.0 / 3.0, 0.01), 0.01)->rate_hz, WithinRel(100.0 / 3.0, 1e-9));
    // 59.94 Hz over 100 s lies outside of what rounding could make of 60 Hz.
    CHECK_THAT(fit_even_grid(stamps(5995, 59.94, 0.001), 0.001)->rate_hz, WithinRel(59.94, 1e-5));
}

TEST_CASE("a clock that ticks more slowly than samples were taken", "[recording][even_grid]") {
    const auto grid = fit_even_grid(stamps(605, 10.0, 1.0, 42.7, true), 1.0);
    REQUIRE(grid.has_value());
    CHECK(grid->rate_hz == 10.0);
    CHECK_THAT(grid->start_s, WithinAbs(42.7, 1e-9));
    CHECK(fit_even_grid(stamps(3000, 1000.0, 0.01, 0.0, true), 0.01)->rate_hz == 1000.0);
}

TEST_CASE("rows that are left out leave places empty", "[recording][even_grid]") {
    std::vector<double> time_s = stamps(1000, 100.0, 0.01);
    leave_out(time_s, 700, 40);
    leave_out(time_s, 200, 1);
    const auto grid = fit_even_grid(time_s, 0.01);
    REQUIRE(grid.has_value());
    CHECK(grid->rate_hz == 100.0);
    CHECK(grid->count == 1000);
    REQUIRE(grid->place.size() == time_s.size());
    CHECK(grid->place[199] == 199);
    CHECK(grid->place[200] == 201);
    CHECK(grid->place[699] == 740);
    CHECK(grid->place.back() == 999);
}

TEST_CASE("many single rows left out are gaps and no slower rate", "[recording][even_grid]") {
    std::vector<double> time_s = stamps(400, 50.0, 0.001);
    std::mt19937 random(11);
    for (int k = 0; k < 120; ++k) {
        leave_out(time_s, 1 + random() % (time_s.size() - 2), 1);
    }
    const auto grid = fit_even_grid(time_s, 0.001);
    REQUIRE(grid.has_value());
    CHECK(grid->rate_hz == 50.0);
    CHECK(grid->count == 400);
}

TEST_CASE("slight jitter stays on the grid and strong jitter does not", "[recording][even_grid]") {
    std::mt19937 random(3);
    std::uniform_real_distribution<double> unit(-1.0, 1.0);
    for (const double share : {0.02, 0.3}) {
        CAPTURE(share);
        std::vector<double> time_s = stamps(500, 100.0, 1e-6);
        for (double& time : time_s) {
            time += share * 0.01 * unit(random);
        }
        CHECK(fit_even_grid(time_s, 1e-6).has_value() == (share < 0.05));
    }
}

TEST_CASE("a pause that would need too many places is left to the stamps", "[recording][even_grid]") {
    std::vector<double> time_s = stamps(100, 1000.0, 0.001);
    time_s.push_back(3600.0 * 24.0);
    CHECK_FALSE(fit_even_grid(time_s, 0.001).has_value());
}

TEST_CASE("stamps that say nothing give no grid", "[recording][even_grid]") {
    CHECK_FALSE(fit_even_grid(std::vector<double>{}, 0.0).has_value());
    CHECK_FALSE(fit_even_grid(std::vector<double>{1.0}, 0.0).has_value());
    CHECK_FALSE(fit_even_grid(std::vector<double>{1.0, 1.0, 1.0}, 0.0).has_value());
    const auto two = fit_even_grid(std::vector<double>{1.0, 1.5}, 0.1);
    REQUIRE(two.has_value());
    CHECK(two->rate_hz == 2.0);
}

TEST_CASE("the resolution of stamps is the last decimal that they use", "[recording][even_grid]") {
    CHECK(decimal_resolution(std::vector<double>{0, 10, 20}) == 1.0);
    CHECK_THAT(decimal_resolution(std::vector<double>{0.0, 0.25, 0.5}), WithinRel(0.01, 1e-12));
    CHECK_THAT(decimal_resolution(std::vector<double>{17.003, 17.0, 18.0}), WithinRel(0.001, 1e-12));
    CHECK(decimal_resolution(std::vector<double>{1.0 / 3.0}) == 0.0);
    CHECK(decimal_resolution(std::vector<double>{}) == 0.0);
}
