#include <jointrom/report/table_rows.hpp>

#include <support/catch.hpp>

#include <limits>

using namespace jointrom;

namespace {

const std::vector<RowColumn> columns = row_columns({"participant", "arc_deg~", "repetitions", "at_edge", "start_s"});

std::string csv(const std::vector<Cell>& cells) {
    std::string text;
    append_csv_cells(columns, cells, text);
    return text;
}

std::string json(const std::vector<Cell>& cells) {
    std::string text;
    append_json_cells(columns, cells, text);
    return text;
}

}  // namespace

TEST_CASE("rows stand under the same columns whatever they hold", "[report][table_rows]") {
    CHECK(csv_header(columns) == "participant,arc_deg,arc_u_deg,arc_u95_deg,repetitions,at_edge,start_s\n");
    const Cell three = count_cell(3);
    CHECK(csv({std::string("a,b"), Measured{120.514, 1.25, 2.5}, three, true, -0.0001}) ==
          "\"a,b\",120.51,1.250,2.500,3,true,0.000");
    CHECK(csv({std::string("=1+1"), Cell(), Cell(), Cell(), std::numeric_limits<double>::quiet_NaN()}) ==
          "'=1+1,,,,,,");
    CHECK(csv({std::string(), 7.0, three, false, 1.0}) == ",7.00,,,3,false,1.000");
}

TEST_CASE("rows as JSON have null for what is not there", "[report][table_rows]") {
    CHECK(json({std::string("Zo\xC3\xAB \"Z\""), Measured{120.514, 1.25, 2.5}, count_cell(3), true, 0.25}) ==
          "\"participant\":\"Zo\xC3\xAB \\\"Z\\\"\",\"arc_deg\":120.51,\"arc_u_deg\":1.250,\"arc_u95_deg\":2.500,"
          "\"repetitions\":3,\"at_edge\":true,\"start_s\":0.250");
    CHECK(json({std::string(), Cell(), Cell(), Cell(), std::numeric_limits<double>::infinity()}) ==
          "\"participant\":null,\"arc_deg\":null,\"arc_u_deg\":null,\"arc_u95_deg\":null,\"repetitions\":null,"
          "\"at_edge\":null,\"start_s\":null");
}
