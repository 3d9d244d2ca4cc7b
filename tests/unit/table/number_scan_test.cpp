#include <table/number_scan.hpp>

#include <support/catch.hpp>

#include <fmt/format.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>

using namespace jointrom;

namespace {

struct Scanned {
    bool found = false;
    double value = 0.0;
    std::size_t length = 0;
};

/// \param shape  as a number before would have left it
Scanned scan(std::string text, char decimal_mark = '.', NumberShape shape = {}) {
    text += ",\n";
    const std::size_t size = text.size();
    text.append(NumberShape::reach, '7');
    const char* at = text.data();
    Scanned result;
    result.found = scan_number(at, text.data() + size, decimal_mark, shape, result.value);
    result.length = static_cast<std::size_t>(at - text.data());
    return result;
}

bool same(const Scanned& a, const Scanned& b) {
    return a.found == b.found && a.length == b.length &&
           (!a.found || std::bit_cast<std::uint64_t>(a.value) == std::bit_cast<std::uint64_t>(b.value));
}

/// A number as text in one of many shapes.
std::string random_number(std::mt19937_64& random) {
    const auto below = [&](std::uint64_t n) { return random() % n; };
    const auto digits = [&](std::uint64_t most) {
        std::string text;
        for (std::uint64_t i = 0, count = 1 + below(most); i < count; ++i) {
            text += static_cast<char>('0' + below(10));
        }
        return text;
    };
    const std::string sign = below(2) == 0 ? "-" : "";
    const double any = std::ldexp(static_cast<double>(random()), static_cast<int>(below(140)) - 130);
    switch (below(9)) {
    case 0:
        return sign + digits(4) + "." + digits(6);
    case 1:
        return sign + digits(22);
    case 2:
        return sign + digits(12) + "." + digits(28);
    case 3:
        return sign + "." + digits(9);
    case 4:
        return sign + digits(5) + ".";
    case 5:
        return sign + fmt::format("{}", any);
    case 6:
        return sign + fmt::format("{:.{}e}", any, below(20));
    case 7:
        return sign + fmt::format("{:.{}f}", any, below(25));
    default:
        return sign + fmt::format("{:g}", any);
    }
}

}  // namespace

TEST_CASE("numbers of every shape are read bit for bit as fast_float reads them", "[table][number_scan]") {
    std::array shapes{NumberShape(), NumberShape(), NumberShape(2, 3, '.'), NumberShape(8, 0, '.')};
    shapes[1].many_digits = true;
    std::mt19937_64 random(20240229);
    for (int i = 0; i < 300000; ++i) {
        const std::string text = random_number(random);
        double expected = 0.0;
        const auto [stop, status] = fast_float::from_chars(text.data(), text.data() + text.size(), expected);
        REQUIRE(status == std::errc());
        const Scanned wanted{true, expected, static_cast<std::size_t>(stop - text.data())};
        for (const NumberShape& shape : shapes) {
            if (!same(scan(text, '.', shape), wanted)) {
                CAPTURE(text, shape.length, shape.power_of_ten, shape.many_digits, expected);
                FAIL("differs");
            }
        }
    }
}

TEST_CASE("what a number before looked like changes nothing", "[table][number_scan]") {
    // Every shape of up to eight bytes against numbers of that shape with any one character replaced.
    constexpr std::string_view replacements = "0123456789.,;-+eE \r\n/:x|\t\xB0";
    std::mt19937_64 random(5);
    for (std::uint8_t whole = 1; whole <= 8; ++whole) {
        for (std::uint8_t decimals = 0; whole + decimals + (decimals > 0 ? 1 : 0) <= 8; ++decimals) {
            std::string digits;
            for (int i = 0; i < 8; ++i) {
                digits += static_cast<char>('0' + random() % 10);
            }
            std::string text = digits.substr(0, whole);
            text += decimals > 0 ? "." + digits.substr(whole, decimals) : "";
            CAPTURE(text);
            for (std::size_t at = 0; at <= text.size(); ++at) {
                for (const char c : replacements) {
                    std::string changed = text;
                    changed.replace(at, 1, 1, c);
                    for (const std::string& variant : {changed, "-" + changed}) {
                        for (const char mark : {'.', ',', '\0'}) {
                            CAPTURE(variant, mark);
                            const bool agrees = same(scan(variant, mark, {whole, decimals, mark}), scan(variant, mark));
                            CHECK(agrees);
                        }
                    }
                }
            }
        }
    }
}

TEST_CASE("numbers that are hard to round are read correctly", "[table][number_scan]") {
    // Halfway and near-halfway cases around 2^53, where a first guess is wrong most easily.
    CHECK(scan("9007199254740993").value == 9007199254740992.0);
    CHECK(scan("9007199254740993.00000000000000000001").value == 9007199254740994.0);
    CHECK(scan("0.1").value == 0.1);
    CHECK(scan("123456789012345678901234567890").value == 123456789012345678901234567890.0);
    CHECK(scan("4.9e-324").value == 4.9e-324);
    CHECK(std::signbit(scan("-0.000").value));
}

TEST_CASE("a decimal comma is read where it is the mark and ends the number where it is not", "[table][number_scan]") {
    CHECK(scan("12,385", ',').value == 12.385);
    CHECK(scan("12,385", ',').length == 6);
    CHECK(scan("12,385", '.').value == 12.0);
    CHECK(scan("12,385", '.').length == 2);
    CHECK(scan("-1,5e3", ',').value == -1500.0);
}

TEST_CASE("what does not begin with a number is left alone", "[table][number_scan]") {
    for (const char* text : {"", "-", ".", "-.", "nan", "inf", "abc", "+1", " 1", "1e999", "-9e99999"}) {
        CAPTURE(text);
        CHECK_FALSE(scan(text).found);
        CHECK(scan(text).length == 0);
    }
}
