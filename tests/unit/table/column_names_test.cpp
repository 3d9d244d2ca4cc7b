#include <table/column_names.hpp>

#include <support/catch.hpp>

using namespace jointrom;

using Names = std::vector<std::string>;

TEST_CASE("a header is cut by the delimiter, comment mark and blank end removed", "[table][column_names]") {
    CHECK(header_cells("Time (s);Angle;;", ';', 2) == Names{"Time (s)", "Angle"});
    CHECK(header_cells("# Time, Angle", ',', 2) == Names{"Time", "Angle"});
    CHECK(header_cells("\tTime\tAngle", '\t', 3) == Names{"", "Time", "Angle"});
    CHECK(header_cells("\"Knee\nangle\",t", ',', 2) == Names{"Knee angle", "t"});
    CHECK(header_cells("Winkel (\xB0)", ',', 1) == Names{"Winkel (°)"});
}

TEST_CASE("names between blanks are put together to fit the columns", "[table][column_names]") {
    CHECK(header_cells("Time (s)   Knee angle (deg)", ' ', 2) == Names{"Time (s)", "Knee angle (deg)"});
    CHECK(header_cells("Time (s) Angle (deg)", ' ', 2) == Names{"Time (s)", "Angle (deg)"});
    CHECK(header_cells("t angle emg", ' ', 3) == Names{"t", "angle", "emg"});
    // Empty quotes are a blank name, not a word to join.
    CHECK(header_cells("t \"\" angle (deg)", ' ', 3) == Names{"t", "", "angle (deg)"});
}

TEST_CASE("a header may have a delimiter of its own", "[table][column_names]") {
    CHECK(header_cells_otherwise("t,a,e", '\t', 3) == Names{"t", "a", "e"});
    CHECK_FALSE(header_cells_otherwise("t,a,e", '\t', 2).has_value());
}

TEST_CASE("a row of units holds units and no numbers", "[table][column_names]") {
    CHECK(is_units_row(Names{"s", "deg", "mV"}));
    CHECK(is_units_row(Names{"", "[°]", "bpm"}));
    CHECK_FALSE(is_units_row(Names{"Time", "Angle", "s"}));
    CHECK_FALSE(is_units_row(Names{"s", "5"}));
    CHECK_FALSE(is_units_row(Names{}));
}

TEST_CASE("numbered lines name channels", "[table][column_names]") {
    const Names lines = {"Recorded in the lab",
                         "Channel 1: 'Rectus femoris', 691 values, engineering units: mV, no filters",
                         "Channel 2: 'Knee', engineering units: deg"};
    const auto names = channel_names(lines, 2);
    REQUIRE(names.has_value());
    CHECK(names->headings == Names{"Rectus femoris", "Knee"});
    CHECK(names->units == Names{"mV", "deg"});
    CHECK(channel_names(Names{"Column 1 = Time [s]", "Column 2 = Angle [deg]"}, 2)->units == Names{"s", "deg"});
    CHECK_FALSE(channel_names(lines, 1).has_value());
    CHECK_FALSE(channel_names(Names{"Channel 1: 'A'"}, 3).has_value());
    CHECK_FALSE(channel_names(Names{"Recorded at 10:31", "Room 2: upstairs"}, 3).has_value());
}

TEST_CASE("repeated and blank names are told apart", "[table][column_names]") {
    Names names = {"Time", "Angle", "", "Angle", "Angle", "Time"};
    CHECK(make_distinct(names) == 3);
    CHECK(names == Names{"Time", "Angle", "column 3", "Angle#2", "Angle#3", "Time#2"});
    Names taken = {"a", "a", "a#2"};
    make_distinct(taken);
    CHECK(taken == Names{"a", "a#3", "a#2"});
}
