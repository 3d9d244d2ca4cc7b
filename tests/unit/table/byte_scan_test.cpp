#include <table/byte_scan.hpp>

#include <support/catch.hpp>

#include <string>

using namespace jointrom;

TEST_CASE("bytes are counted beyond what one byte can count", "[table][byte_scan]") {
    const std::string lines(70'001, '\n');
    CHECK(count_lines(lines) == 70'001);
    CHECK(count_lines("1,2\n3,4") == 1);
    CHECK(count_lines("") == 0);
}

TEST_CASE("a single byte beyond ASCII is found", "[table][byte_scan]") {
    std::string text(1000, 'a');
    CHECK(is_ascii(text));
    text[777] = '\xB0';
    CHECK_FALSE(is_ascii(text));
}
