#include <jointrom/table/table_reader.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>
#include <support/reference_file.hpp>

#include <cmath>
#include <sstream>
#include <string>

using namespace jointrom;

namespace {

std::string long_recording(std::size_t rows) {
    std::string text = "Time (s),Angle (deg),EMG (mV)\n";
    for (std::size_t i = 0; i < rows; ++i) {
        text +=
            std::to_string(i) + ".25," + std::to_string(i % 180) + ".5,-0." + std::to_string(1000 + i % 9000) + "\n";
    }
    return text;
}

void check_long_recording(const Table& table, std::size_t rows) {
    REQUIRE(table.description.rows == rows);
    REQUIRE(table.columns.size() == 3);
    bool all = true;
    for (std::size_t i = 0; i < rows; ++i) {
        all = all && table.columns[0].values[i] == static_cast<double>(i) + 0.25 &&
              table.columns[1].values[i] == static_cast<double>(i % 180) + 0.5 &&
              table.columns[2].values[i] == -static_cast<double>(1000 + i % 9000) / 10000.0 &&
              table.line_of_row(i) == i + 2;
    }
    CHECK(all);
}

}  // namespace

TEST_CASE("a recording of many blocks of text is read whole from every source", "[table][table_reader]") {
    constexpr std::size_t rows = 60'000;  // about 1.3 MB
    const std::string text = long_recording(rows);
    check_long_recording(read_table_text(text, "long"), rows);
    std::istringstream stream(text);
    check_long_recording(read_table(*stream_source(stream), "-"), rows);
}

TEST_CASE("lines are known for rows behind blank lines and remarks", "[table][table_reader]") {
    const Table table = read_table_text("t,a\n1,5\n\n2,6\n# remark\n\n3,7\n4,8\n", "x.csv");
    CHECK(table.first_data_line == 2);
    CHECK(table.line_of_row(0) == 2);
    CHECK(table.line_of_row(1) == 4);
    CHECK(table.line_of_row(2) == 7);
    CHECK(table.line_of_row(3) == 8);
}

TEST_CASE("columns that are not wanted are checked but not kept", "[table][table_reader]") {
    const TableOptions only_angle{.wanted = [](const auto& headings, const auto& /*units*/) {
        std::vector<bool> wanted;
        for (const std::string& heading : headings) {
            wanted.push_back(heading == "a");
        }
        return wanted;
    }};
    const Table table = read_table_text("t,a,e\n1,5,9\n2,6,\n", "x.csv", only_angle);
    CHECK(table.columns[0].values.empty());
    CHECK(table.columns[1].values == std::vector<double>{5, 6});
    CHECK(table.columns[2].values.empty());
    CHECK(table.columns[2].is_numeric);
    CHECK(table.columns[2].missing == 1);
    CHECK_THROWS_AS(read_table_text("t,a,e\n1,5,9\n2,6,x9\n3,7,8\n4,7,8\n", "x.csv", only_angle), Failure);
}

TEST_CASE("the time column is found by its unit or name, or stated", "[table][table_reader]") {
    CHECK(read_table_text("n,a,t (s)\n1,5,9\n2,6,10\n", "x").time_column == 2);
    CHECK(read_table_text("n,Zeit\n1,5\n2,6\n", "x").time_column == 1);
    CHECK_FALSE(read_table_text("n,a\n1,5\n2,6\n", "x").time_column.has_value());
    CHECK(read_table_text("n,a\n1,5\n2,6\n", "x", {.time_column = "a"}).time_column == 1);
    CHECK(read_table_text("n,a (ms)\n1,5\n2,6\n", "x", {.time_column = "a"}).description.time_format == "milliseconds");
    CHECK(read_table_text("n,a\n1,5\n2,6\n", "x", {.time_column = "1"}).time_column == 0);
}

TEST_CASE("values given in any spelling are missing if the option names their number", "[table][table_reader]") {
    const Table table = read_table_text("t,a\n1,-9999.0\n2,-9.999e3\n3,5\n", "x", {.missing_values = {-9999.0}});
    CHECK(table.columns[1].missing == 2);
    CHECK(std::isnan(table.columns[1].values[1]));
}

TEST_CASE("a clock in every row and a text column stay in step over block borders", "[table][table_reader]") {
    std::string text = "clock;angle;marker\n";
    constexpr int rows = 40'000;
    for (int i = 0; i < rows; ++i) {
        const std::string tenths = std::to_string(i % 10);
        const int seconds = i / 10;
        const auto two = [](int value) { return (value < 10 ? "0" : "") + std::to_string(value); };
        text += two(23 + seconds / 3600 > 23 ? 0 : 23) + ":" + two(seconds / 60 % 60) + ":" + two(seconds % 60) + "." +
                tenths + ";" + std::to_string(i) + ";\"m;" + std::to_string(i) + "\"\n";
    }
    const Table table = read_table_text(text, "x");
    REQUIRE(table.description.rows == rows);
    CHECK(table.columns[0].is_time);
    CHECK_THAT(table.columns[0].values.back(), WithinAbs((rows - 1) / 10.0, 1e-9));
    CHECK(table.columns[2].first_text == "m;0");
}

TEST_CASE("a failure names the file it is in", "[table][table_reader]") {
    try {
        static_cast<void>(read_table_text("t,a\n1,5\n2,6\n3,7\n4,5x\n", "P07.csv"));
        FAIL("was read");
    } catch (const Failure& failure) {
        CHECK(failure.place().text() == "P07.csv:5:2");
    }
    CHECK_THROWS_AS(read_table(test::tests_path("data/exports/no-such-file.csv")), Failure);
}

TEST_CASE("a page header that is printed again does not divide a trial", "[table][table_reader]") {
    std::string text = "t,a\n";
    for (int i = 0; i < 30; ++i) {
        text += std::to_string(i) + "," + std::to_string(i * i) + "\n" + (i % 10 == 9 ? "t,a\n" : "");
    }
    const Table table = read_table_text(text, "x");
    CHECK(table.description.rows == 30);
    CHECK(table.description.blocks.size() == 1);
    CHECK(contains(table.findings, "lines-skipped"));
}

TEST_CASE("trials of different width and header are kept apart", "[table][table_reader]") {
    const std::string text = "t,a\n0,5\n1,6\n2,7\n3,8\n4,9\n\nt,a,e\n0,1,2\n1,2,3\n2,3,4\n3,4,5\n4,5,6\n";
    const Table second = read_table_text(text, "x", {.trial = 2});
    CHECK(second.columns.size() == 3);
    CHECK(second.description.header_line == 8);
    CHECK(second.first_data_line == 9);
    CHECK(second.line_of_row(4) == 13);
    CHECK(second.columns[2].values == std::vector<double>{2, 3, 4, 5, 6});
    const Table first = read_table_text(text, "x", {.trial = 1});
    CHECK(first.columns.size() == 2);
    CHECK(first.columns[1].values == std::vector<double>{5, 6, 7, 8, 9});
    CHECK(first.description.blocks[0].last_line == 6);
}
