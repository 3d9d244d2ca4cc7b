#include <jointrom/report/render.hpp>

#include <support/catch.hpp>

#include <nlohmann/json.hpp>

#include <limits>

using namespace jointrom;

namespace {

Report example() {
    Report report;
    report.schema = "jointrom-example";
    report.title = "an example";
    ResultTable table("sides", {"direction", "angle_deg", "count", "at_edge", "at_s"});
    table.add_row({std::string("flexion"), Measured{141.256, 1.2345, 2.469}, count_cell(5), true, 12.3456});
    table.add_row(
        {std::string("=1+1, \"x\""), std::monostate(), count_cell(0), false, std::numeric_limits<double>::quiet_NaN()});
    report.tables.push_back(table);
    report.inputs.push_back({"P03.csv", "", 1200});
    report.settings = {{"joint", "elbow"}, {"lowpass_hz", "6"}, {"mirror", ""}};
    report.findings.emplace_back("gap", "0.4 s", Place{"P03.csv", 17, 0});
    return report;
}

}  // namespace

TEST_CASE("CSV gives a value with uncertainty three columns, leaves missing cells empty and disarms formulas",
          "[report][render]") {
    CHECK(csv_report(example()) == "direction,angle_deg,angle_u_deg,angle_u95_deg,count,at_edge,at_s\n"
                                   "flexion,141.26,1.234,2.469,5,true,12.346\n"
                                   "\"'=1+1, \"\"x\"\"\",,,,0,false,\n");
}

TEST_CASE("JSON is one envelope with nulls for what is missing", "[report][render]") {
    const auto json = nlohmann::json::parse(json_report(example()));
    CHECK(json["schema"] == "jointrom-example/1");
    CHECK(json["tool"]["name"] == "jointrom");
    CHECK(json["inputs"][0]["rows"] == 1200);
    CHECK(json["settings"]["lowpass_hz"] == 6.0);
    CHECK(json["settings"]["mirror"].is_null());
    CHECK(json["result"]["sides"][0]["angle_deg"]["u95"] == 2.469);
    CHECK(json["result"]["sides"][1]["angle_deg"].is_null());
    CHECK(json["result"]["sides"][1]["at_s"].is_null());
    CHECK(json["findings"][0]["code"] == "gap");
    CHECK(json["findings"][0]["place"] == "P03.csv:17");
}

TEST_CASE("the printed table aligns columns and shows the expanded uncertainty", "[report][render]") {
    const std::string text = text_report(example());
    CHECK_THAT(text, ContainsSubstring("an example\n"));
    CHECK_THAT(text, ContainsSubstring("  angle (deg)  "));
    CHECK_THAT(text, ContainsSubstring("141.26 ± 2.47"));
    CHECK_THAT(text, !ContainsSubstring("nan"));
}

TEST_CASE("a budget is printed only when an explanation is asked for", "[report][render]") {
    Report report = example();
    Budget budget;
    budget.add({.input = "neutral zero", .u = 0.3});
    report.budgets.push_back({"flexion", budget});
    CHECK_THAT(text_report(report), !ContainsSubstring("neutral zero"));
    CHECK_THAT(text_report(report, true), ContainsSubstring("neutral zero"));
    CHECK(nlohmann::json::parse(json_report(report))["result"]["budgets"]["flexion"]["u"] == 0.3);
}

TEST_CASE("columns that the input named come first and keep their text", "[report][render]") {
    const std::vector<std::string> names{"class, year", "mean", "=x"};
    ResultTable table("groups", names, {"mean", "count"});
    table.add_row(
        {std::string("2b"), std::string("left"), std::monostate(), FixedNumber{0.00123456, 6}, count_cell(3)});
    Report report;
    report.title = "groups";
    report.tables.push_back(table);
    const Report copy = report;
    report = {};
    CHECK(csv_report(copy) == "\"class, year\",group_mean,'=x,mean,count\n2b,left,,0.001235,3\n");
    CHECK_THAT(text_report(copy), ContainsSubstring("0.001235"));
    CHECK(nlohmann::json::parse(json_report(copy))["result"]["groups"][0]["mean"] == 0.001235);
}

TEST_CASE("a table wider than the line is printed in parts behind its first column", "[report][render]") {
    ResultTable table("t", {"direction", "start_s", "end_s", "duration_s"});
    table.add_row({std::string("flexion"), 1.0, 2.5, 1.5});
    Report report;
    report.title = "title";
    report.tables = {table};
    CHECK(text_report(report, false, 24) == "title\n\n"
                                            "  direction  start (s)\n"
                                            "  flexion        1.000\n"
                                            "\n"
                                            "  direction  end (s)\n"
                                            "  flexion      2.500\n"
                                            "\n"
                                            "  direction  duration (s)\n"
                                            "  flexion           1.500\n");
    CHECK(text_report(report, false, 80) == text_report(report));
    CHECK_THAT(text_report(report, false, 5), ContainsSubstring("  direction  start (s)\n"));
}
