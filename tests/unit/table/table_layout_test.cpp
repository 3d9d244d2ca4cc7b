#include <table/table_layout.hpp>
#include <table/table_start.hpp>

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

#include <string>

using namespace jointrom;

namespace {

using Names = std::vector<std::string>;

TableLayout layout_of(const std::string& text) {
    return find_layout(guess_dialect(text, 1, {}, {}), "x.csv");
}

std::string code_of(const std::string& text) {
    try {
        static_cast<void>(layout_of(text));
    } catch (const Failure& failure) {
        CHECK(failure.place().file == "x.csv");
        return failure.code();
    }
    return {};
}

}  // namespace

TEST_CASE("the parts of a table are told apart", "[table][table_layout]") {
    const TableLayout layout = layout_of("Session 3\n\nTime;Angle\ns;deg\n\n0,5;1\n0,6;2\n0,7;3\n");
    CHECK(layout.columns == 2);
    CHECK(layout.header_line == 3);
    CHECK(layout.units_line == 4);
    CHECK(layout.first_data_line == 6);
    CHECK(layout.headings == Names{"Time", "Angle"});
    CHECK(layout.units == Names{"s", "deg"});
    CHECK(layout.preamble == Names{"Session 3"});
    CHECK(layout.kinds == std::vector{CellKind::number, CellKind::number});
    CHECK(layout.trials.size() == 1);
}

TEST_CASE("a sentence above the numbers is no header", "[table][table_layout]") {
    const TableLayout layout = layout_of("Recorded on Monday, in the lab\n1,2,3,4,5\n2,3,4,5,6\n");
    CHECK(layout.header_line == 0);
    CHECK(layout.headings == Names{"column 1", "column 2", "column 3", "column 4", "column 5"});
    CHECK(layout.preamble.size() == 1);
}

TEST_CASE("numbers in the lines above do not begin the table", "[table][table_layout]") {
    CHECK(layout_of("100,2\nTime,Angle,EMG\n0.1,2,3\n0.2,3,4\n0.3,4,5\n").first_data_line == 3);
    CHECK(layout_of("Rate,100\nTime,Angle\n0.1,2\n0.2,3\n0.3,4\n").first_data_line == 3);
}

TEST_CASE("a damaged row among the first does not hide those before it", "[table][table_layout]") {
    const std::string text = "Time,Angle\n0.1,2\n0.x,3\n0.3,4\n0.4,5\n0.5,6\n0.6,7\n0.7,8\n";
    CHECK(layout_of(text).first_data_line == 2);
    CHECK(layout_of(text).header_line == 1);
}

TEST_CASE("columns of text and blank columns are told apart", "[table][table_layout]") {
    const TableLayout layout = layout_of("id,t,angle,note\nP07,0.1,5,\nP07,0.2,6,\nP07,0.3,7,\n");
    CHECK(layout.kinds == std::vector{CellKind::text, CellKind::number, CellKind::number, CellKind::blank});
}

TEST_CASE("a table of whole numbers under half as many names needs a word from the user", "[table][table_layout]") {
    const std::string text = "Time,Angle\n0,05,12,5\n0,10,12,6\n0,15,12,7\n";
    CHECK(code_of(text) == "comma-twice");
    CHECK(find_layout(guess_dialect(text, 1, ',', '.'), "x.csv").columns == 4);
    CHECK(code_of("a,b,c,d\n0,05,12,5\n0,10,12,6\n0,15,12,7\n").empty());
    CHECK(code_of("512,-3,7,1\n513,-2,7,1\n").empty());
}

TEST_CASE("a text without numbers and a table that lies on its side are refused", "[table][table_layout]") {
    CHECK(code_of("a,b\nc,d\n") == "no-table");
    std::string row = "1";
    for (int i = 2; i <= 5000; ++i) {
        row += "," + std::to_string(i);
    }
    CHECK(code_of(row + "\n" + row + "\n") == "too-many-columns");
}
