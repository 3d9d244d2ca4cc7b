#include <jointrom/core/number_text.hpp>

#include <support/catch.hpp>

#include <array>
#include <cmath>
#include <cstdio>
#include <limits>
#include <random>
#include <string>
#include <string_view>

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

// The same text as the C library's, whose printf is exact.
TEST_CASE("numbers with fixed decimals are rounded correctly, also about halfway", "[core][number_text]") {
    std::mt19937_64 random(7);
    const auto printed = [](double value, int decimals) {
        std::array<char, 400> text{};
        std::snprintf(text.data(), text.size(), "%.*f", decimals, value);
        const std::string_view all(text.data());
        return std::string(all.starts_with('-') && all.find_first_of("123456789") == all.npos ? all.substr(1) : all);
    };
    const auto check = [&](double value, int decimals) {
        if (fixed_text(value, decimals) != printed(value, decimals)) {
            CAPTURE(value, decimals, printed(value, decimals));
            CHECK(fixed_text(value, decimals) == printed(value, decimals));
        }
    };
    for (int i = 0; i < 100000; ++i) {
        const int decimals = static_cast<int>(random() % 9);
        const double size = std::pow(10.0, static_cast<double>(random() % 18) - 4.0);
        const double value = (static_cast<double>(random() % 2000001) - 1e6) / 1e6 * size;
        check(decimals > 6 && std::abs(value) < 1e-3 ? 1.5 : value, decimals);
        const double halfway =
            (std::floor(std::abs(value) * 100.0) + 0.5) / std::pow(10.0, static_cast<double>(random() % 7));
        for (const double near : {halfway, std::nextafter(halfway, 0.0), std::nextafter(-halfway, -1e300)}) {
            check(near, static_cast<int>(random() % 7));
        }
    }
    for (const double value : {0.0, -0.0, 0.5, -0.5, 1.5, 9.9995, 999999.5, 1e22, 1e300, 999999999999.5}) {
        for (int decimals = 0; decimals <= 6; ++decimals) {
            check(value, decimals);
        }
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
