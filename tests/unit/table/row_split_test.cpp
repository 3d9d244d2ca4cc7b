#include <table/row_split.hpp>

#include <support/catch.hpp>

#include <string>
#include <vector>

using namespace jointrom;

namespace {

std::vector<std::string> cells(std::string_view line, char delimiter) {
    RowCells row;
    split_row(line, delimiter, row);
    return {row.cells.begin(), row.cells.end()};
}

using Cells = std::vector<std::string>;

}  // namespace

TEST_CASE("a line is cut at its delimiters and cells lose the blanks around them", "[table][row_split]") {
    CHECK(cells("1.5, -2 ,\t3", ',') == Cells{"1.5", "-2", "3"});
    CHECK(cells("1.5;;3;", ';') == Cells{"1.5", "", "3", ""});
    CHECK(cells("\t1\t\t2", '\t') == Cells{"", "1", "", "2"});
    CHECK(cells("  1.5   2\t3 \r", ' ') == Cells{"1.5", "2", "3"});
    CHECK(cells("", ',') == Cells{""});
    CHECK(cells("   ", ' ').empty());
    CHECK(cells("7\xC2\xA0", ',') == Cells{"7"});
}

TEST_CASE("quotes hold delimiters together and may be doubled", "[table][row_split]") {
    CHECK(cells(R"("a, b",2)", ',') == Cells{"a, b", "2"});
    CHECK(cells(R"( "a" , "2,5" )", ',') == Cells{"a", "2,5"});
    CHECK(cells(R"("say ""no""",2)", ',') == Cells{R"(say "no")", "2"});
    CHECK(cells("\"line\nend\",2", ',') == Cells{"line\nend", "2"});
    CHECK(cells(R"("",2)", ',') == Cells{"", "2"});
    CHECK(cells(R"("Knee angle" 2)", ' ') == Cells{"Knee angle", "2"});
}

TEST_CASE("a quote that is not closed is a letter", "[table][row_split]") {
    CHECK(cells(R"(5" pipe,2)", ',') == Cells{R"(5" pipe)", "2"});
    CHECK(cells(R"("open,2)", ',') == Cells{R"("open)", "2"});
    CHECK(cells(R"("a"b,2)", ',') == Cells{R"("a"b)", "2"});
}

TEST_CASE("a row ends at the first line end outside quotes", "[table][row_split]") {
    CHECK(row_end("1,2\n3,4\n", 0, ',') == 3);
    CHECK(row_end("1,2\n3,4\n", 4, ',') == 7);
    CHECK(row_end("\"a\nb\",2\n3\n", 0, ',') == 7);
    CHECK(row_end("1,\"a\nb\"\n3\n", 0, ',') == 7);
    CHECK(row_end("\"open\n1,2\n", 0, ',') == 5);
    CHECK(row_end("1,2", 0, ',') == 3);
}

TEST_CASE("delimiters and blanks alone are no text", "[table][row_split]") {
    CHECK_FALSE(holds_text(" ,;\t|\r"));
    CHECK_FALSE(holds_text(std::string(8, '\0')));
    CHECK(holds_text(",,x"));
}
