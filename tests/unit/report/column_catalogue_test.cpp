#include <jointrom/report/column_catalogue.hpp>

#include <support/catch.hpp>

using namespace jointrom;

TEST_CASE("the catalogue of columns is sorted, without repeats, and explains each", "[report][column_catalogue]") {
    const auto catalogue = column_catalogue();
    REQUIRE(catalogue.size() > 10);
    for (std::size_t i = 1; i < catalogue.size(); ++i) {
        CAPTURE(catalogue[i].key);
        CHECK(catalogue[i - 1].key < catalogue[i].key);
    }
    for (const ColumnKind& column : catalogue) {
        CAPTURE(column.key);
        CHECK(column.key.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string_view::npos);
        CHECK(column.meaning.ends_with('.'));
    }
}

TEST_CASE("the unit of a column is the end of its key", "[report][column_catalogue]") {
    CHECK(column_kind("arc_deg").unit() == "deg");
    CHECK(column_kind("peak_velocity_deg_s").unit() == "deg/s");
    CHECK(column_kind("start_s").unit() == "s");
    CHECK(column_kind("phase").unit().empty());
    CHECK(column_kind("arc_deg").key_with("u95") == "arc_u95_deg");
    CHECK(column_kind("peak_velocity_deg_s").key_with("u") == "peak_velocity_u_deg_s");
    CHECK_THROWS_AS(column_kind("no_such_column"), std::out_of_range);
}
