#include <jointrom/core/number_text.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;

TEST_CASE("plain decimal numbers are read and nothing else is", "[core][number_text]") {
    CHECK(parse_number("-12.385") == -12.385);
    CHECK(parse_number("+4.5e-3") == 0.0045);
    CHECK(parse_number("010") == 10.0);
    for (const char* text : {"", " 1", "1 ", "0x10", "nan", "inf", "1,5", "12deg", "+-3", "++3", "1e999", "-"}) {
        CAPTURE(text);
        CHECK_FALSE(parse_number(text).has_value());
    }
}

TEST_CASE("numbers are printed without minus zero and missing values as nothing", "[core][number_text]") {
    CHECK(fixed_text(-0.0001, 3) == "0.000");
    CHECK(fixed_text(-12.3456, 2) == "-12.35");
    CHECK(fixed_text(0.0000027, 7) == "2.7e-06");
    CHECK(fixed_text(-1.25e-12, 14) == "-1.25e-12");
    CHECK(fixed_text(1.2e-12, 8) == "0");
    CHECK(fixed_text(std::numeric_limits<double>::quiet_NaN(), 2).empty());
    CHECK(shortest_text(0.1) == "0.1");
    CHECK(shortest_text(-0.0) == "0");
    CHECK(parse_number(shortest_text(1.0 / 3.0)) == 1.0 / 3.0);
}
