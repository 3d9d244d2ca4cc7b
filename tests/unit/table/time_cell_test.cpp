#include <table/time_cell.hpp>

#include <support/catch.hpp>

#include <initializer_list>
#include <vector>

using namespace jointrom;

namespace {

std::vector<double> seconds_of(std::initializer_list<const char*> cells) {
    TimeLine times;
    std::vector<double> result;
    for (const char* cell : cells) {
        CAPTURE(cell);
        const auto time = read_time_cell(cell);
        REQUIRE(time.has_value());
        result.push_back(times.seconds(*time));
    }
    return result;
}

void check_seconds(std::initializer_list<const char*> cells, const std::vector<double>& expected) {
    const std::vector<double> found = seconds_of(cells);
    for (std::size_t i = 0; i < expected.size(); ++i) {
        CAPTURE(i);
        CHECK_THAT(found[i], WithinAbs(expected[i], 1e-9));
    }
}

}  // namespace

TEST_CASE("times in minutes and hours count as they stand", "[table][time_cell]") {
    check_seconds({"0:58.5", "1:00.25", "75:12"}, {58.5, 60.25, 4512.0});
    check_seconds({"00:00:01.500", "00:01:02,250", "01:00:00"}, {1.5, 62.25, 3600.0});
    CHECK(read_time_cell("1:00")->format == TimeFormat::minutes_seconds);
    CHECK(read_time_cell("0:01:00")->format == TimeFormat::hours_minutes_seconds);
}

TEST_CASE("clocks count from the first stamp and pass midnight", "[table][time_cell]") {
    check_seconds({"10:31:07", "10:31:07.5", "11:00:00"}, {0.0, 0.5, 1733.0});
    check_seconds({"11:59:59 PM", "12:00:00 AM", "12:00:01 am"}, {0.0, 1.0, 2.0});
    check_seconds({"11:59:30 a.m.", "12:00:00 p.m.", "1:00:00 PM"}, {0.0, 30.0, 3630.0});
    check_seconds({"23:59:59.9", "0:00:00.1"}, {0.0, 0.2});
    check_seconds({"04.11.2024 09:15:00", "04.11.2024 09:15:00,5"}, {0.0, 0.5});
    check_seconds({"11/4/2024 9:15 PM", "11/4/2024 9:16 PM"}, {0.0, 60.0});
    check_seconds({"31/12/2024 23:59:59", "01/01/2025 00:00:01"}, {0.0, 2.0});
}

TEST_CASE("an ISO date counts days, offsets and leap years", "[table][time_cell]") {
    check_seconds({"2024-02-28T23:59:59Z", "2024-02-29T00:00:01Z", "2024-03-01T00:00:00Z"}, {0.0, 2.0, 86401.0});
    check_seconds({"2023-02-28 23:59:59", "2023-03-01 00:00:00.001"}, {0.0, 1.001});
    // An hour is repeated when summer time ends; the offset tells.
    check_seconds({"2024-10-27T02:59:59+02:00", "2024-10-27T02:00:00+01:00"}, {0.0, 1.0});
    check_seconds({"2024-07-01T10:00:00-0430", "2024-07-01T14:30:01Z"}, {0.0, 1.0});
    // Microseconds survive, since days are not mixed with seconds.
    check_seconds({"2024-07-01T10:00:00.000001Z", "2024-07-01T10:00:00.000003Z"}, {0.0, 0.000002});
}

TEST_CASE("days are those of the calendar", "[table][time_cell]") {
    // Days from 1970-01-01: python3 -c "from datetime import date; print((date(2024,2,29)-date(1970,1,1)).days)"
    CHECK(read_time_cell("1970-01-01T00:00:00")->day == 0);
    CHECK(read_time_cell("2024-02-29T00:00:00")->day == 19782);
    CHECK(read_time_cell("2100-03-01T00:00:00")->day == 47541);
    CHECK(read_time_cell("1969-12-31T00:00:00")->day == -1);
}

TEST_CASE("what is no time is not read as one", "[table][time_cell]") {
    for (const char* text : {"",
                             "12",
                             "12:",
                             ":30",
                             "1:60",
                             "1:75.2",
                             "1:2:60",
                             "1:61:00",
                             "12:30x",
                             "13:00:00 PM",
                             "0:10 PM",
                             "2024-13-01T00:00:00",
                             "2024-02-01",
                             "2024-02-01T",
                             "2024-02-01T25:00:00",
                             "1:2:3:4",
                             "1:00.",
                             "-1:00",
                             "ratio 1:2",
                             "2024-02-01T10:00:00+",
                             "a1:00"}) {
        CAPTURE(text);
        CHECK_FALSE(read_time_cell(text).has_value());
    }
}
