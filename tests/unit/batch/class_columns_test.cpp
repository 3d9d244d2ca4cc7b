#include <jointrom/batch/class_columns.hpp>

#include "class_table.hpp"

using namespace jointrom;
using namespace jointrom::test;

TEST_CASE("the columns of a table of trials are known by name", "[batch][class_columns]") {
    const std::vector<std::string> headings{"Participant", "side", "trial", "condition", "arc_deg", "positive_deg"};
    CHECK(value_columns(headings, {}) == std::vector<std::string>{"arc_deg", "positive_deg"});
    CHECK(value_columns(headings, {"Positive_deg"}) == std::vector<std::string>{"positive_deg"});
    CHECK(group_columns(headings, {}) == std::vector<std::string>{"side", "condition"});
    CHECK(group_columns(headings, std::vector<std::string>{}).empty());
    CHECK(group_columns(headings, std::vector<std::string>{"trial", "TRIAL"}) == std::vector<std::string>{"trial"});
    CHECK(participant_column(headings, "") == "Participant");
    CHECK(participant_column({"student"}, "").empty());
    CHECK(participant_column({"student"}, "student") == "student");
}

TEST_CASE("columns that are not there are refused with the nearest name", "[batch][class_columns]") {
    const std::vector<std::string> headings{"student", "knee_deg"};
    CHECK(failure_code([&] { (void)value_columns(headings, {}); }) == "value-unknown");
    try {
        (void)value_columns(headings, {"kneedeg"});
        FAIL("was accepted");
    } catch (const Failure& failure) {
        CHECK(failure.code() == "no-such-column");
        CHECK_THAT(failure.advice(), ContainsSubstring("knee_deg"));
    }
}

TEST_CASE("columns that are empty throughout do not group", "[batch][class_columns]") {
    const LongTable table = table_of({"side,condition,x\nleft,,1\nright,,2\n"}, {{"side", "condition"}, {"x"}});
    CHECK(filled_columns(table, {"side", "condition"}) == std::vector<std::string>{"side"});
}
