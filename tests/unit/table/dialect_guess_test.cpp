#include <table/dialect_guess.hpp>

#include <support/catch.hpp>

#include <string>

using namespace jointrom;

namespace {

DialectGuess guess(const std::string& text) {
    return guess_dialect(text, 1, {}, {});
}

}  // namespace

TEST_CASE("delimiter and decimal mark are found from a few rows", "[table][dialect_guess]") {
    struct Case {
        const char* text;
        char delimiter;
        char decimal_mark;
        bool known;
    };
    const Case cases[] = {
        {"0.1,2.5\n0.2,2.6\n", ',', '.', true},
        {"0,1;2,5\n0,2;2,6\n", ';', ',', true},
        {"0.1;2.5\n0.2;2.6\n", ';', '.', true},
        {"0,1\t2,5\n0,2\t2,6\n", '\t', ',', true},
        {"0.1|2.5\n0.2|2.6\n", '|', '.', true},
        {"0.1 2.5\n0.2  2.6\n", ' ', '.', true},
        {"0,1 2,5\n0,2  2,6\n", ' ', ',', true},
        {"1;2\n2;3\n", ';', '.', false},
        {"12,345;1\n12,401;2\n", ';', ',', false},
        {"1,234.5;1\n2,345.25;2\n", ';', '.', true},
        {"\"0,1\",\"2,5\"\n\"0,2\",\"2,6\"\n", ',', ',', true},
        {"a;b c;d\n0.1;2.5;1\n0.2;2.6;2\n", ';', '.', true},
        {"2024-05-01 10:00:00.1,5.5\n2024-05-01 10:00:00.2,5.6\n", ',', '.', true},
    };
    for (const Case& c : cases) {
        CAPTURE(c.text);
        const DialectGuess found = guess(c.text);
        CHECK(found.delimiter == c.delimiter);
        CHECK(found.decimal_mark == c.decimal_mark);
        CHECK(found.decimal_known == c.known);
    }
}

TEST_CASE("what is stated is not guessed", "[table][dialect_guess]") {
    const DialectGuess stated = guess_dialect("1,5;2\n2,5;3\n", 1, ',', '.');
    CHECK(stated.delimiter == ',');
    CHECK(stated.decimal_mark == '.');
    CHECK(stated.stated);
}

TEST_CASE("a long text above the table does not mislead", "[table][dialect_guess]") {
    std::string text;
    for (int i = 0; i < 40; ++i) {
        text += "Setting " + std::to_string(i) + ", value; " + std::to_string(i) + ",5\n";
    }
    for (int i = 0; i < 30; ++i) {
        text += std::to_string(i) + "\t" + std::to_string(i * i) + ".25\n";
    }
    CHECK(guess(text).delimiter == '\t');
}

TEST_CASE("a line that names the separator is taken off", "[table][dialect_guess]") {
    std::string_view text = "sep=;\r\na;b\n";
    CHECK(take_separator_line(text) == ';');
    CHECK(text == "a;b\n");
    std::string_view tab = "\"SEP=\t\"\na\tb\n";
    CHECK(take_separator_line(tab) == '\t');
    std::string_view none = "separate;b\n";
    CHECK_FALSE(take_separator_line(none).has_value());
    CHECK(none == "separate;b\n");
}
