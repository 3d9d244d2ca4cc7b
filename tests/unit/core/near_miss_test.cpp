#include <jointrom/core/near_miss.hpp>

#include <support/catch.hpp>

#include <array>

using namespace jointrom;

TEST_CASE("the edit distance counts insertions, deletions, replacements and swaps", "[core][near_miss]") {
    CHECK(edit_distance("", "") == 0);
    CHECK(edit_distance("", "knee") == 4);
    CHECK(edit_distance("knee", "knee") == 0);
    CHECK(edit_distance("kitten", "sitting") == 3);  // the usual textbook example
    CHECK(edit_distance("ca", "abc") == 3);          // optimal string alignment: a swapped pair is not edited again
    CHECK(edit_distance("ebow", "elbow") == 1);
    CHECK(edit_distance("elobw", "elbow") == 1);
    CHECK(edit_distance("Elbow", "elbow") == 0);
}

TEST_CASE("the nearest known name is suggested and a far one is not", "[core][near_miss]") {
    constexpr auto known = std::to_array<std::string_view>({"ankle", "elbow", "forearm", "hip", "knee"});
    CHECK(nearest("elbwo", known) == "elbow");
    CHECK(nearest("KNEES", known) == "knee");
    CHECK(nearest("for-arm", known) == "forearm");
    CHECK(nearest("hop", known) == "hip");
    CHECK_FALSE(nearest("temperature", known).has_value());
    CHECK_FALSE(nearest("", known).has_value());
    CHECK_FALSE(nearest("x", known).has_value());
    CHECK_FALSE(nearest("elbow", {}).has_value());
}
