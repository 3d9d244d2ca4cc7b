#include <jointrom/batch/name_pattern.hpp>
#include <jointrom/core/failure.hpp>

#include <support/catch.hpp>

using namespace jointrom;

namespace {

std::string fitted(const std::string& pattern, const std::string& name) {
    const auto places = NamePattern(pattern).fit(name);
    if (!places) {
        return "no";
    }
    std::string text;
    for (const auto& [place, value] : *places) {
        text += place + "=" + value + " ";
    }
    return text;
}

std::string refused(const std::string& pattern) {
    try {
        (void)NamePattern(pattern);
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "no";
}

}  // namespace

TEST_CASE("a pattern takes names apart", "[batch][name_pattern]") {
    CHECK(fitted("{participant}_{side}_{trial}.csv", "P01_left_3.csv") == "participant=P01 side=left trial=3 ");
    CHECK(fitted("{participant}_{side}_{trial}.csv", "P01_left.csv") == "no");
    CHECK(fitted("{participant}_{side}_{trial}.csv", "P01_left_3.txt") == "no");
    CHECK(fitted("{participant}_{side}_*.csv", "P01_left_elbow.csv") == "participant=P01 side=left ");
    CHECK(fitted("{participant}-{trial}.csv", "a-b-2.csv") == "participant=a trial=b-2 ");
    CHECK(fitted("{participant}.csv", ".csv") == "no");
    CHECK(fitted("{participant}/{side}.csv", "P01/left.csv") == "participant=P01 side=left ");
    CHECK(NamePattern("{condition}/{participant}/{side}.csv").depth() == 2);
}

TEST_CASE("a pattern that cannot be meant is refused", "[batch][name_pattern]") {
    CHECK(refused("{participant_{side}.csv") == "entry-unknown");
    CHECK(refused("{participant") == "pattern-invalid");
    CHECK(refused("{participant}{side}.csv") == "pattern-invalid");
    CHECK(refused("{side}_{side}.csv") == "pattern-invalid");
    CHECK(refused("*{participant}.csv") == "pattern-invalid");
    CHECK(refused("all.csv") == "pattern-invalid");
    CHECK(refused("") == "pattern-invalid");
    CHECK(refused("{particpant}.csv") == "entry-unknown");
    CHECK(refused("{file}") == "entry-unknown");
}
