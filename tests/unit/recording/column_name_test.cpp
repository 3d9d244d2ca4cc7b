#include <jointrom/recording/column_name.hpp>

#include "table_by_hand.hpp"

#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

Table goniometers() {
    return test::table_by_hand({{"Time (s)", "s", {0.0, 1.0}},
                                {"Knee angle (deg)", "deg", {0.0, 1.0}},
                                {"Knee angle (deg)#2", "deg", {0.0, 1.0}},
                                {"Hip angle (deg)", "deg", {0.0, 1.0}},
                                {"", "", {0.0, 1.0}},
                                {"Angle", "", {0.0, 1.0}}});
}

std::string code_of(std::string_view name) {
    try {
        (void)find_column(goniometers(), name, "--angle");
    } catch (const Failure& failure) {
        CHECK(failure.kind() == FailureKind::usage);
        CHECK_THAT(failure.what(), ContainsSubstring("--angle"));
        return failure.code();
    }
    return {};
}

}  // namespace

TEST_CASE("a column is found by heading, number, beginning or part", "[recording][column_name]") {
    const Table table = goniometers();
    for (const auto& [name, index] :
         std::initializer_list<std::pair<const char*, std::size_t>>{{"Knee angle (deg)", 1},
                                                                    {"knee ANGLE", 1},
                                                                    {"Knee angle#2", 2},
                                                                    {"Knee angle (deg)#2", 2},
                                                                    {"4", 3},
                                                                    {"5", 4},
                                                                    {"column 5", 4},
                                                                    {"hip", 3},
                                                                    {"(s)", 0},
                                                                    {"Angle", 5},
                                                                    {"tim", 0}}) {
        CAPTURE(name);
        CHECK(find_column(table, name, "--angle") == index);
    }
}

TEST_CASE("a name that fits several columns or none is refused", "[recording][column_name]") {
    CHECK(code_of("knee") == "column-ambiguous");
    CHECK(code_of("deg") == "column-ambiguous");
    CHECK(code_of("elbow") == "column-missing");
    CHECK(code_of("7") == "column-missing");
    CHECK(code_of("") == "column-missing");
}

TEST_CASE("the nearest name is offered for one that is not there", "[recording][column_name]") {
    try {
        (void)find_column(goniometers(), "Hip angel", "--angle");
        FAIL("found a column that is not there");
    } catch (const Failure& failure) {
        CHECK(failure.advice() == "Did you mean 'Hip angle'?");
    }
}
