#include "batch/ordered_work.hpp"

#include <support/catch.hpp>

#include <chrono>
#include <stdexcept>

using namespace jointrom;

namespace {

/// Squares, delivered one after another; some take longer than others.
std::vector<std::size_t> squares(std::size_t count, std::size_t threads, std::size_t stop_after, std::size_t fail_at) {
    std::vector<std::size_t> delivered;
    std::atomic<bool> stop{false};
    const auto work = [&](std::size_t i) {
        if (i % 7 == 0) {
            std::this_thread::sleep_for(std::chrono::microseconds(200));
        }
        if (i == fail_at) {
            throw std::runtime_error("no");
        }
        return i * i;
    };
    const auto deliver = [&](std::size_t i, std::size_t&& square) {
        REQUIRE(i == delivered.size());
        delivered.push_back(square);
        stop = stop || delivered.size() == stop_after;
    };
    const std::size_t reached =
        OrderedWork<std::size_t, decltype(work), decltype(deliver)>(count, work, deliver, stop).run(threads);
    CHECK(reached == delivered.size());
    return delivered;
}

}  // namespace

TEST_CASE("results come in order from any number of threads", "[batch][ordered_work]") {
    const auto alone = squares(500, 1, 1000, 1000);
    REQUIRE(alone.size() == 500);
    CHECK(alone[499] == 499U * 499U);
    for (const std::size_t threads : {2U, 3U, 16U}) {
        CHECK(squares(500, threads, 1000, 1000) == alone);
    }
    CHECK(squares(0, 4, 1000, 1000).empty());
    CHECK(squares(1, 4, 1000, 1000).size() == 1);
}

TEST_CASE("work that is stopped delivers what was begun", "[batch][ordered_work]") {
    for (const std::size_t threads : {1U, 4U}) {
        const auto some = squares(10000, threads, 20, 20000);
        CHECK(some.size() >= 20);
        CHECK(some.size() <= 20 + 16 * threads);
    }
}

TEST_CASE("an exception stops the work and comes out", "[batch][ordered_work]") {
    CHECK_THROWS_AS(squares(500, 1, 1000, 100), std::runtime_error);
    CHECK_THROWS_AS(squares(500, 4, 1000, 100), std::runtime_error);
}
