#include <table/head_rows.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

constexpr std::string_view text = "Participant,P07\n"
                                  "Rate,100\n"
                                  "\n"
                                  "Time,\"Angle\n(deg)\",Remark\n"
                                  "0.00,12.5,\n"
                                  "0.01,12.75,start\n"
                                  "0.02,n/a\n"
                                  "0:00.03,13.0,\n"
                                  "Mean,12.8\n";

}  // namespace

TEST_CASE("rows know their lines, widths and kinds", "[table][head_rows]") {
    const HeadRows head(text, 1, 100, ',', '.');
    REQUIRE(head.rows().size() == 9);
    CHECK(head.complete());
    CHECK(head.has_quotes());
    CHECK(head.rows()[2].is_blank());
    CHECK(head.rows()[3].line == 4);
    CHECK(head.rows()[3].texts == 3);
    // The header takes two lines of the file.
    CHECK(head.rows()[4].line == 6);
    CHECK(head.rows()[4].numbers == 2);
    CHECK(head.rows()[4].proves_mark);
    CHECK(head.kinds(head.rows()[5])[2] == CellKind::text);
    CHECK(head.kinds(head.rows()[6])[1] == CellKind::blank);
    CHECK(head.kinds(head.rows()[7])[0] == CellKind::time);
    CHECK_FALSE(HeadRows(text, 1, 3, ',', '.').complete());
}

TEST_CASE("the best run is the table and not the settings above it", "[table][head_rows]") {
    const HeadRows head(text, 1, 100, ',', '.');
    const auto run = best_run(head);
    REQUIRE(run.has_value());
    CHECK(run->first == 4);
    CHECK(run->last == 8);
    CHECK(run->width == 3);
    CHECK(run->rows == 4);
    CHECK(run->is_ragged);
    CHECK(run->proves_mark);
    CHECK_FALSE(best_run(HeadRows("a,b\nc,d\n", 1, 10, ',', '.')).has_value());
}

TEST_CASE("rows with and without the last cells belong to one run", "[table][head_rows]") {
    const auto run = best_run(HeadRows("1,2,3\n2,3\n3,4\n4,5\n5,6,7\n", 1, 10, ',', '.'));
    REQUIRE(run.has_value());
    CHECK(run->rows == 5);
    CHECK(run->width == 2);
    CHECK(run->widest == 3);
}
