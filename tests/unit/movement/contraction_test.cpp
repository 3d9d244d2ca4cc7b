#include <jointrom/movement/contraction.hpp>

#include <support/catch.hpp>

using namespace jointrom;

TEST_CASE("types of contraction have their usual names, and none where nothing is known", "[movement][contraction]") {
    CHECK(name_of(Contraction::concentric) == "concentric");
    CHECK(name_of(Contraction::isometric) == "isometric");
    CHECK(name_of(Contraction::eccentric) == "eccentric");
    CHECK(name_of(Contraction::mixed) == "mixed");
    CHECK(name_of(Contraction::undecided).empty());
}
