#include <jointrom/table/record_reader.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

using namespace jointrom;

namespace {

using Rows = std::vector<std::vector<std::string>>;

Rows rows_of(std::string_view text) {
    const auto source = text_source(text);
    RecordReader reader(*source, "list.csv");
    Rows rows{reader.columns()};
    while (reader.next()) {
        rows.emplace_back();
        for (std::size_t k = 0; k < reader.columns().size(); ++k) {
            rows.back().emplace_back(reader.text(k));
        }
    }
    return rows;
}

/// The code of the failure that reading all of `text` gives.
std::string failure_of(std::string_view text) {
    try {
        rows_of(text);
    } catch (const Failure& failure) {
        return failure.code() + " " + failure.place().text();
    }
    return "none";
}

}  // namespace

TEST_CASE("records are cut at commas, semicolons or tabs", "[table][record_reader]") {
    const Rows wanted = {{"name", "value"}, {"a", "1"}, {"b", ""}};
    CHECK(rows_of("name,value\na,1\nb,\n") == wanted);
    CHECK(rows_of("name;value\r\na;1\r\nb;\r\n") == wanted);
    CHECK(rows_of("\n name\tvalue \n\na\t 1 \nb\t\n\n") == wanted);
    CHECK(rows_of("\xEF\xBB\xBFname,value,,\na,1,,\nb,,,") == wanted);
    CHECK(rows_of("name\na\n") == Rows{{"name"}, {"a"}});
    CHECK(rows_of("name,value\n") == Rows{{"name", "value"}});
}

TEST_CASE("a cell in quotes may hold delimiters, doubled quotes and line ends", "[table][record_reader]") {
    const std::string text = "name,note\n\"Ada, the first\",\"says \"\"no\"\"\"\nb,\"two\nlines\"\nc,x\n";
    const auto source = text_source(text);
    RecordReader reader(*source, "list.csv");
    REQUIRE(reader.next());
    CHECK(reader.text(0) == "Ada, the first");
    CHECK(reader.text(1) == "says \"no\"");
    REQUIRE(reader.next());
    CHECK(reader.text(1) == "two\nlines");
    CHECK(reader.line() == 3);
    REQUIRE(reader.next());
    CHECK(reader.place(1) == Place{"list.csv", 5, 2});
    CHECK_FALSE(reader.next());
}

TEST_CASE("a quoted cell is whole across the borders of blocks", "[table][record_reader]") {
    std::string text = "number,note\n";
    for (int k = 0; k < 100000; ++k) {
        text += std::to_string(k) + ",\"first\nsecond\"\n";
    }
    const auto source = text_source(text);
    RecordReader reader(*source, "list.csv");
    std::size_t rows = 0;
    while (reader.next()) {
        REQUIRE(reader.text(1) == "first\nsecond");
        REQUIRE(reader.number(0) == static_cast<double>(rows));
        ++rows;
    }
    CHECK(rows == 100000);
    CHECK(reader.line() == 2 * rows);
}

TEST_CASE("text in Windows-1252 becomes UTF-8", "[table][record_reader]") {
    CHECK(rows_of("name\nJos\xE9\n") == Rows{{"name"}, {"Jos\xC3\xA9"}});
    CHECK(rows_of("name\nJos\xC3\xA9\n") == Rows{{"name"}, {"Jos\xC3\xA9"}});
}

TEST_CASE("the apostrophe that keeps a spreadsheet from computing is no part of a text", "[table][record_reader]") {
    CHECK(rows_of("'=name,b\n'=1+1,'-2.5\n\"'@x, y\",'a'\n',''=1\n") ==
          Rows{{"=name", "b"}, {"=1+1", "-2.5"}, {"@x, y", "'a'"}, {"'", "''=1"}});
    const auto source = text_source("value\n'-2.5\n");
    RecordReader reader(*source, "list.csv");
    REQUIRE(reader.next());
    CHECK(reader.number(0) == -2.5);
}

TEST_CASE("numbers of records", "[table][record_reader]") {
    const auto source = text_source("a;b;c;d\n1.5;2,25;;-3e2\n");
    RecordReader reader(*source, "list.csv");
    REQUIRE(reader.next());
    CHECK(reader.number(0) == 1.5);
    CHECK(reader.number(1) == 2.25);
    CHECK(std::isnan(reader.number(2)));
    CHECK(reader.number(3) == -300.0);
    const auto words = text_source("a,b\n1,\"2,5\"\n");
    RecordReader other(*words, "list.csv");
    REQUIRE(other.next());
    CHECK_THROWS_AS(other.number(1), Failure);
}

TEST_CASE("columns are found by name in any case; a wrong name gets the nearest", "[table][record_reader]") {
    const auto source = text_source("File,Participant\na,b\n");
    const RecordReader reader(*source, "list.csv");
    CHECK(reader.column("participant") == 1);
    CHECK_FALSE(reader.find_column("side").has_value());
    try {
        static_cast<void>(reader.column("particpant"));
        FAIL("no such column");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "no-such-column");
        CHECK(failure.advice() == "Is 'Participant' meant?");
    }
}

TEST_CASE("a table of records that is not well formed is refused with its place", "[table][record_reader]") {
    CHECK(failure_of("") == "file-empty list.csv");
    CHECK(failure_of("a,b\n1\n") == "row-width list.csv:2");
    CHECK(failure_of("a,b\n\n1,2,3\n") == "row-width list.csv:3");
    CHECK(failure_of("1,2\n3,4\n") == "headings-missing list.csv:1:1");
    CHECK(failure_of("a,A\n3,4\n") == "column-twice list.csv:1:2");
}
