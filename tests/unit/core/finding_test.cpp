#include <jointrom/core/finding.hpp>

#include <support/catch.hpp>

#include <algorithm>

using namespace jointrom;

TEST_CASE("the catalogue of findings is sorted, without repeats, and each entry says what to do", "[core][finding]") {
    const auto catalogue = finding_catalogue();
    REQUIRE(catalogue.size() > 10);
    for (std::size_t i = 1; i < catalogue.size(); ++i) {
        CAPTURE(catalogue[i].code);
        CHECK(catalogue[i - 1].code < catalogue[i].code);
    }
    for (const FindingKind& kind : catalogue) {
        CAPTURE(kind.code);
        CHECK(kind.code.find_first_not_of("abcdefghijklmnopqrstuvwxyz-0123456789") == std::string_view::npos);
        CHECK(kind.meaning.ends_with('.'));
        CHECK(kind.advice.ends_with('.'));
    }
}

TEST_CASE("a finding takes its severity from the catalogue and an unknown code is refused", "[core][finding]") {
    const Finding gap("gap", "0.45 s without samples at 3.20 s", {"left.csv", 321, 0});
    CHECK(gap.severity() == Severity::warning);
    CHECK(gap.place.text() == "left.csv:321");
    CHECK(contains({gap}, "gap"));
    CHECK_FALSE(contains({gap}, "stuck"));
    CHECK_THROWS_AS(Finding("no-such-code", ""), std::out_of_range);
}
