#include <recording/forward_time.hpp>

#include <support/catch.hpp>

#include <limits>

using namespace jointrom;

namespace {

using Rows = std::vector<std::size_t>;
constexpr double missing = std::numeric_limits<double>::quiet_NaN();

}  // namespace

TEST_CASE("a clock that never falls uses every row", "[recording][forward_time]") {
    const ForwardRows forward = forward_rows(std::vector<double>{0.1, 0.2, 0.2, 0.3});
    CHECK(forward.all);
    CHECK(forward.rows.empty());
    CHECK(forward_rows(std::vector<double>{}).all);
}

TEST_CASE("of a clock that starts again the longest part is used", "[recording][forward_time]") {
    const ForwardRows first_rows = forward_rows(std::vector<double>{6.0, 6.1, 0.0, 0.1, 0.2, 0.3});
    CHECK(first_rows.rows == Rows{2, 3, 4, 5});
    CHECK(first_rows.restarts == Rows{2});
    CHECK(first_rows.strays.empty());

    const ForwardRows twice = forward_rows(
        std::vector<double>{0.0, 0.1, 0.2, 0.3, 0.4, 0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.0, 0.1, 0.2, 0.3, 0.35});
    CHECK(twice.rows == Rows{5, 6, 7, 8, 9, 10, 11});
    CHECK(twice.restarts == Rows{5, 12});
}

TEST_CASE("a part of a clock that starts again can be chosen", "[recording][forward_time]") {
    const std::vector<double> time{0.0, 0.1, 0.2, 0.3, 0.4, 0.0, 0.1, 0.2, 0.3, 0.31, 0.4, 0.0, 0.1};
    CHECK(forward_rows(time, 1).rows == Rows{0, 1, 2, 3, 4});
    CHECK(forward_rows(time, 3).rows == Rows{11, 12});
    CHECK(forward_rows(time, 4).rows.empty());
    CHECK_FALSE(forward_rows(time, 4).all);
    CHECK(forward_rows(std::vector<double>{0.0, 0.1}, 1).all);
    CHECK(forward_rows(std::vector<double>{0.0, 0.1}, 2).rows.empty());
}

TEST_CASE("single stamps out of order do not cut the recording", "[recording][forward_time]") {
    const ForwardRows back = forward_rows(std::vector<double>{0.0, 0.1, 0.2, 0.05, 0.3, 0.4});
    CHECK(back.rows == Rows{0, 1, 2, 4, 5});
    CHECK(back.strays == Rows{3});
    CHECK(back.restarts.empty());

    const ForwardRows ahead = forward_rows(std::vector<double>{0.0, 0.1, 99.0, 98.0, 0.4, 0.5, 0.6, 0.7, 0.8});
    CHECK(ahead.rows == Rows{0, 1, 4, 5, 6, 7, 8});
    CHECK(ahead.strays.size() == 2);
}

TEST_CASE("rows without a time are left out and counted unless they end the file", "[recording][forward_time]") {
    const ForwardRows forward = forward_rows(std::vector<double>{0.0, missing, 0.2, 0.3, missing, missing});
    CHECK(forward.rows == Rows{0, 2, 3});
    CHECK(forward.without_time == 1);
    CHECK(forward_rows(std::vector<double>{missing, missing}).rows.empty());
    CHECK_FALSE(forward_rows(std::vector<double>{missing, missing}).all);
}

TEST_CASE("a clock that only falls leaves one row", "[recording][forward_time]") {
    CHECK(forward_rows(std::vector<double>{5.0, 4.0, 3.0, 2.0, 1.0, 0.0}).rows.size() == 1);
}
