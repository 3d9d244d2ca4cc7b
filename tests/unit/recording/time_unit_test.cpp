#include <recording/time_unit.hpp>

#include <support/catch.hpp>

using namespace jointrom;

TEST_CASE("units of time are known by their symbols", "[recording][time_unit]") {
    CHECK(time_unit_named("ms")->seconds == 1e-3);
    CHECK(time_unit_named("min")->seconds == 60.0);
    CHECK_FALSE(time_unit_named("deg").has_value());
    CHECK_FALSE(time_unit_named("").has_value());
}

TEST_CASE("the unit without a name is the one that makes a plausible recording", "[recording][time_unit]") {
    struct Case {
        double step;
        double count;
        const char* unit;
    };
    for (const Case& c :
         {Case{0.01, 1000, "s"}, Case{0.001, 20000, "s"}, Case{0.0001, 50000, "s"}, Case{0.28, 230, "s"},
          Case{0.5, 120, "s"}, Case{1, 61, "s"}, Case{1, 20000, "ms"}, Case{10, 600, "ms"}, Case{20, 1500, "ms"},
          Case{0.5, 20000, "ms"}, Case{10000, 1000, "us"}, Case{1000, 20000, "us"}, Case{0.01 / 86400, 6000, "d"}}) {
        CAPTURE(c.step, c.count);
        CHECK(plausible_time_unit(c.step, c.step * c.count, Hertz()).unit.symbol == c.unit);
    }
}

TEST_CASE("doubt about the unit is told", "[recording][time_unit]") {
    CHECK(plausible_time_unit(0.01, 10.0, Hertz()).is_plain);
    CHECK_FALSE(plausible_time_unit(1.0, 500.0, Hertz()).is_plain);
}

TEST_CASE("a stated rate settles the unit", "[recording][time_unit]") {
    CHECK(plausible_time_unit(1.0, 61.0, Hertz(1000.0)).unit.symbol == "ms");
    CHECK(plausible_time_unit(1.0, 20000.0, Hertz(1.0)).unit.symbol == "s");
}
