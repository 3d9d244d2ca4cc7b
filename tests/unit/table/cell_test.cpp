#include <table/cell.hpp>

#include <support/catch.hpp>

using namespace jointrom;

TEST_CASE("words for a missing sample are known in any case", "[table][cell]") {
    for (const char* word : {"", "NaN", "nan", "NA", "n/a", "#N/A", "NULL", "None", "-", "--", "---", "inf", "-INF",
                             "+Inf", "Infinity", "1.#INF", "-1.#IND", "#DIV/0!"}) {
        CAPTURE(word);
        CHECK(is_missing_word(word));
    }
    for (const char* word : {"0", "-1", "nano", "name", "infinite", "----", "n"}) {
        CAPTURE(word);
        CHECK_FALSE(is_missing_word(word));
    }
}

TEST_CASE("numbers in cells are read with the decimal mark of the table", "[table][cell]") {
    CHECK(read_number_cell("-12.385", '.')->value == -12.385);
    CHECK(read_number_cell("+12,385", ',')->value == 12.385);
    CHECK(read_number_cell("1.5e-3", '.')->value == 0.0015);
    CHECK(read_number_cell("\xE2\x88\x92"
                           "7.25",
                           '.')
              ->value == -7.25);
    CHECK(read_number_cell(".5", '.')->value == 0.5);
    for (const char* text :
         {"", "12deg", "1.2.3", "0x10", "1e999", "--5", "+-5", "nan", "inf", "1,5", "1 .5", "-", "12,", "e5"}) {
        CAPTURE(text);
        CHECK_FALSE(read_number_cell(text, '.').has_value());
    }
}

TEST_CASE("marks between thousands are read strictly", "[table][cell]") {
    CHECK(read_number_cell("1,234.5", '.')->value == 1234.5);
    CHECK(read_number_cell("-1.234.567,25", ',')->value == -1234567.25);
    CHECK(read_number_cell("1'234'567", '.')->value == 1234567.0);
    CHECK(read_number_cell("1 234,5", ',')->value == 1234.5);
    CHECK(read_number_cell("1\xC2\xA0"
                           "234",
                           ',')
              ->value == 1234.0);
    CHECK(read_number_cell("1,234", '.')->grouping_mark == ',');
    for (const char* text :
         {"0,123", "1,23", "1,2345", "1234,567", "1,234,56", "1,234 567", ",123", "1,234e3", "1,234.5e3"}) {
        CAPTURE(text);
        CHECK_FALSE(read_number_cell(text, '.').has_value());
    }
}

TEST_CASE("a number tells what its marks can mean", "[table][cell]") {
    const auto evidence = [](const char* text, char mark) { return read_number_cell(text, mark)->evidence; };
    CHECK(evidence("12", '.') == MarkEvidence::none);
    CHECK(evidence("12.345", '.') == MarkEvidence::either);
    CHECK(evidence("-12.345", '.') == MarkEvidence::either);
    CHECK(evidence("12,345", '.') == MarkEvidence::either);
    CHECK(evidence("0.345", '.') == MarkEvidence::point);
    CHECK(evidence("12.34", '.') == MarkEvidence::point);
    CHECK(evidence("1234.567", '.') == MarkEvidence::point);
    CHECK(evidence("12.345e1", '.') == MarkEvidence::point);
    CHECK(evidence("1,234,567", '.') == MarkEvidence::point);
    CHECK(evidence("1,234.5", '.') == MarkEvidence::point);
    CHECK(evidence("0,020", ',') == MarkEvidence::comma);
    CHECK(evidence("1'234", '.') == MarkEvidence::none);
}

TEST_CASE("cells are told apart by kind", "[table][cell]") {
    CHECK(kind_of_cell("n/a", '.') == CellKind::blank);
    CHECK(kind_of_cell("-3.5", '.') == CellKind::number);
    CHECK(kind_of_cell("-3,5", '.') == CellKind::text);
    CHECK(kind_of_cell("-3,5", ',') == CellKind::number);
    CHECK(kind_of_cell("0:03.5", '.') == CellKind::time);
    CHECK(kind_of_cell("P07", '.') == CellKind::text);
}
