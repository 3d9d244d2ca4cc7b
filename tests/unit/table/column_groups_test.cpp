#include <table/column_groups.hpp>

#include <support/catch.hpp>

using namespace jointrom;

using Names = std::vector<std::string>;

TEST_CASE("labels at equal distances make groups", "[table][column_groups]") {
    const auto groups = labelled_groups(Names{"", "Left", "", "Right"}, 5);
    REQUIRE(groups.size() == 2);
    CHECK(groups[0].first == 1);
    CHECK(groups[0].last == 3);
    CHECK(groups[1].last == 5);
    CHECK(groups[1].label == "Right");
    CHECK(labelled_groups(Names{"Participant", "P07"}, 4).empty());
    CHECK(labelled_groups(Names{"Title"}, 4).empty());
    CHECK(labelled_groups(Names{"a", "", "b", "", "c"}, 4).empty());
}

TEST_CASE("groups that begin with a time are trials side by side", "[table][column_groups]") {
    const auto groups = labelled_groups(Names{"Trial 1", "", "Trial 2"}, 4);
    const Names names = {"t", "angle", "t", "angle"};
    CHECK(trials_side_by_side(groups, names, {true, false, true, false}).size() == 2);
    CHECK(trials_side_by_side(groups, names, {true, false, false, false}).size() == 1);
}

TEST_CASE("headings that repeat from a time on are trials side by side", "[table][column_groups]") {
    CHECK(
        trials_side_by_side({}, Names{"t", "a", "t", "a", "t", "a"}, {true, false, true, false, true, false}).size() ==
        3);
    CHECK(trials_side_by_side({}, Names{"t", "a", "a", "a"}, {true, false, false, false}).size() == 1);
    CHECK(trials_side_by_side({}, Names{"x", "a", "x", "a"}, {false, false, false, false}).size() == 1);
}
