#include <table/plain_rows.hpp>
#include <table/row_reader.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <string>

using namespace jointrom;

namespace {

using LineKind = RowReader::LineKind;
const std::vector<std::string> headings = {"t", "angle", "emg"};

/// A reader of three columns of numbers, and the text it reads with bytes behind it.
struct Reading {
    explicit Reading(std::string rows, char delimiter = ',', char mark = '.', bool known = true,
                     std::vector<ColumnStore::Column> columns = std::vector<ColumnStore::Column>(3))
        : text(std::move(rows)), store(std::move(columns), {}, 0),
          reader({.delimiter = delimiter, .decimal_mark = mark}, known, store, headings, "x.csv") {
        const std::size_t size = text.size();
        text.append(64, '\0');
        rest = std::string_view(text).substr(0, size);
    }

    RowReader::Stop read() { return reader.read(rest, line); }
    [[nodiscard]] double at(std::size_t c, std::size_t row) const { return store[c].values[row]; }

    std::string text;
    ColumnStore store;
    RowReader reader;
    std::string_view rest;
    std::size_t line = 10;
};

template <typename Action>
Failure failure_of(Action action) {
    try {
        action();
    } catch (const Failure& failure) {
        return failure;
    }
    return {FailureKind::usage, "none", ""};
}

}  // namespace

TEST_CASE("rows are read up to the first line that is none", "[table][row_reader]") {
    Reading reading("0.1,5,-0.25\r\n0.2,,+1e-3\n\n0.3,6,1\n");
    CHECK(reading.read().kind == LineKind::blank);
    CHECK(reading.line == 13);
    CHECK(reading.read().kind == LineKind::row);
    CHECK(reading.rest.empty());
    CHECK(reading.store.rows() == 3);
    CHECK(reading.at(2, 0) == -0.25);
    CHECK(std::isnan(reading.at(1, 1)));
    CHECK(reading.at(2, 1) == 0.001);
    CHECK(reading.at(0, 2) == 0.3);
    CHECK(reading.reader.line_offsets() == std::vector<std::pair<std::size_t, std::size_t>>{{0, 10}, {2, 11}});
}

TEST_CASE("a line is a row, blank, text or a damaged row", "[table][row_reader]") {
    Reading reading("");
    CHECK(reading.reader.kind_of("0.1,5,6") == LineKind::row);
    CHECK(reading.reader.kind_of(",5,") == LineKind::row);
    CHECK(reading.reader.kind_of("NA,NA,NA") == LineKind::row);
    CHECK(reading.reader.kind_of(" , ,") == LineKind::blank);
    CHECK(reading.reader.kind_of("Trial 2") == LineKind::text);
    CHECK(reading.reader.kind_of(",,loud") == LineKind::text);
    CHECK(reading.reader.kind_of("Mean,5,6") == LineKind::wrong);
    CHECK(reading.reader.first_value("0.5,5,6") == 0.5);
    CHECK(std::isnan(reading.reader.first_value(",5,6")));
}

TEST_CASE("a cell that is no number is named with its place", "[table][row_reader]") {
    Reading reading("0.1,5,6\n0.2,5..5,6\n");
    const Failure failure = failure_of([&] { reading.read(); });
    CHECK(failure.code() == "not-a-number");
    CHECK(failure.kind() == FailureKind::unreadable_data);
    CHECK(failure.place().text() == "x.csv:11:2");
    CHECK_THAT(failure.what(), ContainsSubstring("\"5..5\""));
    CHECK_THAT(failure.what(), ContainsSubstring("angle"));
}

TEST_CASE("a number out of range is no number", "[table][row_reader]") {
    Reading reading("0.1,1e999,6\n");
    CHECK(failure_of([&] { reading.read(); }).place().column == 2);
}

TEST_CASE("an unknown decimal mark is learned from the first number that proves one", "[table][row_reader]") {
    Reading reading("1;2;3\n2;3,5;4\n3;4,25;5,125\n", ';', '.', false);
    reading.read();
    CHECK(reading.reader.decimal_known());
    CHECK(reading.reader.dialect().decimal_mark == ',');
    CHECK(reading.at(1, 1) == 3.5);
    CHECK(reading.at(2, 2) == 5.125);
}

TEST_CASE("a proof against what was read before stops the reading", "[table][row_reader]") {
    Reading reading("1;2.125;3\n2;3,5;4\n", ';', '.', false);
    const Failure failure = failure_of([&] { reading.read(); });
    CHECK(failure.code() == "decimal-ambiguous");
    CHECK(failure.place().line == 11);
}

TEST_CASE("rows between blanks, short rows and long rows are read", "[table][row_reader]") {
    Reading reading("  0.1 5\t-3  \n0.2   6\n0.3 7 8 9\n0.4 NA 10\n", ' ');
    CHECK(reading.read().kind == LineKind::row);
    CHECK(reading.store.rows() == 4);
    CHECK(reading.at(2, 0) == -3.0);
    CHECK(std::isnan(reading.at(2, 1)));
    CHECK(reading.at(2, 2) == 8.0);
    CHECK(std::isnan(reading.at(1, 3)));
    CHECK(reading.at(2, 3) == 10.0);
    CHECK(reading.reader.ragged().short_rows == 1);
    CHECK(reading.reader.ragged().long_rows == 1);
    CHECK(reading.reader.ragged().lines == std::vector<std::size_t>{11, 12});
}

TEST_CASE("the last cell of a row that was cut is not believed", "[table][row_reader]") {
    Reading reading("0.1,5,6\n0.2,4\n");
    reading.reader.expect_cut_line(11);
    reading.read();
    CHECK(reading.reader.has_cut_line());
    CHECK(reading.at(0, 1) == 0.2);
    CHECK(std::isnan(reading.at(1, 1)));
    CHECK(reading.reader.ragged().short_rows == 0);
}

TEST_CASE("text columns are passed over and keep their first text", "[table][row_reader]") {
    std::vector<ColumnStore::Column> columns(3);
    columns[1].kind = CellKind::text;
    columns[1].keep = false;
    Reading reading("0.1,,6\n0.2,\"a, b\",7\n0.3,c,8\n", ',', '.', true, std::move(columns));
    reading.read();
    CHECK(reading.store[1].first_text == "a, b");
    CHECK(reading.at(2, 2) == 8.0);
}

TEST_CASE("a column that was blank so far may turn out to hold text", "[table][row_reader]") {
    std::vector<ColumnStore::Column> columns(3);
    columns[2].undetermined = true;
    Reading reading("0.1,5,\n0.2,6,stops\n0.3,7,12\n", ',', '.', true, std::move(columns));
    reading.read();
    CHECK(reading.store[2].kind == CellKind::text);
    CHECK(reading.store[2].first_text == "stops");
    CHECK(reading.store.rows() == 3);
}

TEST_CASE("seconds may go over to minutes and seconds in the first column", "[table][row_reader]") {
    Reading reading("59.5,5,6\n1:00.0,6,7\n1:00.5,7,8\n");
    reading.read();
    CHECK(reading.store[0].kind == CellKind::time);
    CHECK(reading.at(0, 2) == 60.5);
    Reading elsewhere("59.5,5,6\n60.0,1:00.0,7\n");
    CHECK(failure_of([&] { elsewhere.read(); }).place().column == 2);
}
