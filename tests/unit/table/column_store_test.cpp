#include <table/column_store.hpp>

#include <support/catch.hpp>

#include <cmath>
#include <limits>

using namespace jointrom;

namespace {

using Columns = std::vector<ColumnStore::Column>;

/// Rows 0, 1, 2, ... in every column, with a missing sample in each tenth row.
Columns filled(Columns columns, std::size_t expected, std::size_t rows, std::vector<double> missing_values) {
    ColumnStore store(std::move(columns), std::move(missing_values), expected);
    for (std::size_t row = 0; row < rows; ++row) {
        for (std::size_t c = 0; c < store.size(); ++c) {
            store.cell(c) = row % 10 == 3 ? std::numeric_limits<double>::quiet_NaN() : static_cast<double>(row);
        }
        store.add_rows(1);
    }
    CHECK(store.rows() == rows);
    return store.finish();
}

}  // namespace

TEST_CASE("columns grow to what they need whatever was expected", "[table][column_store]") {
    for (const std::size_t expected : {0U, 1U, 9999U, 10000U, 50000U}) {
        for (const std::size_t rows : {0U, 1U, 4095U, 4096U, 4097U, 10000U}) {
            CAPTURE(expected, rows);
            const Columns columns = filled(Columns(2), expected, rows, {});
            REQUIRE(columns[1].values.size() == rows);
            CHECK(columns[1].missing == (rows + 6) / 10);
            for (std::size_t row = 0; row < rows; row += 97) {
                CHECK((row % 10 == 3 ? std::isnan(columns[1].values[row])
                                     : columns[1].values[row] == static_cast<double>(row)));
            }
        }
    }
}

TEST_CASE("stated values become missing samples", "[table][column_store]") {
    const Columns columns = filled(Columns(1), 0, 5000, {4999.0, 17.0, -1.0});
    CHECK(std::isnan(columns[0].values[17]));
    CHECK(std::isnan(columns[0].values[4999]));
    CHECK(columns[0].missing == 502);
}

TEST_CASE("a column that is not kept costs no memory but is counted", "[table][column_store]") {
    Columns columns(2);
    columns[0].keep = false;
    columns = filled(std::move(columns), 100, 5000, {});
    CHECK(columns[0].values.capacity() == 0);
    CHECK(columns[0].missing == 500);
    CHECK(columns[1].values.size() == 5000);
}

TEST_CASE("a column without any value so far is known as such", "[table][column_store]") {
    ColumnStore store(Columns(2), {}, 1);
    for (int row = 0; row < 9000; ++row) {
        store.cell(0) = std::numeric_limits<double>::quiet_NaN();
        store.cell(1) = row == 2 ? 1.0 : std::numeric_limits<double>::quiet_NaN();
        store.add_rows(1);
    }
    CHECK_FALSE(store.has_values(0));
    CHECK(store.has_values(1));
}
