#include <jointrom/batch/level_comparison.hpp>

#include "class_table.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const LongTableRequest request{{"participant", "condition"}, {"extra"}};

/// R's data set sleep: extra hours of ten patients with two drugs.
std::string sleep_text() {
    const double first[10] = {0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0};
    const double second[10] = {1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4};
    std::string text = "participant,condition,extra\n";
    for (int i = 0; i < 10; ++i) {
        const std::string who = std::to_string(i + 1);
        text +=
            who + ",drug 1," + std::to_string(first[i]) + "\n" + who + ",drug 2," + std::to_string(second[i]) + "\n";
    }
    return text;
}

ComparisonOptions drugs() {
    ComparisonOptions options;
    options.participant = "participant";
    options.column = "condition";
    options.first = "drug 1";
    options.second = "drug 2";
    return options;
}

}  // namespace

// t.test() of R 4.2.2.
TEST_CASE("two drugs differ as in the classic example, paired and not", "[batch][level_comparison]") {
    const Comparisons found = compare_levels(table_of({sleep_text()}, request), drugs());
    REQUIRE(found.rows.size() == 2);
    CHECK(found.rows[0].design == Design::paired);
    CHECK(found.rows[0].first.count == 10);
    CHECK_THAT(found.rows[0].test.difference, WithinAbs(1.58, 1e-12));
    CHECK_THAT(found.rows[0].test.t, WithinAbs(4.06212768338204, 1e-10));
    CHECK_THAT(found.rows[0].test.p, WithinAbs(0.00283289019738427, 1e-12));
    CHECK(found.rows[1].design == Design::independent);
    CHECK_THAT(found.rows[1].test.t, WithinAbs(1.86081346748685, 1e-10));
    CHECK_THAT(found.rows[1].test.dof, WithinAbs(17.7764735161785, 1e-9));
    CHECK(contains(found.findings, "change-limit-unknown"));
    CHECK(std::isnan(found.rows[0].detectable_change));
}

TEST_CASE("a known detectable change counts who changed", "[batch][level_comparison]") {
    ComparisonOptions options = drugs();
    options.known_change = 1.25;
    const Comparisons found = compare_levels(table_of({sleep_text()}, request), options);
    // Differences: 1.2 2.4 1.3 1.3 0.0 1.0 1.8 0.8 4.6 1.4
    CHECK(found.rows[0].changed == 6);
    CHECK(found.findings.empty());
}

// By hand: SD within is sqrt((2 + 2 + 8 + 2) / 4) = sqrt(3.5), of means of two sqrt(1/2 + 1/2) times 1.96 of it.
TEST_CASE("repeated values tell which change is more than error", "[batch][level_comparison]") {
    const LongTable table =
        table_of({"participant,condition,extra\nA,drug 1,10\nA,drug 1,12\nA,drug 2,20\nA,drug 2,22\n"
                  "B,drug 1,30\nB,drug 1,34\nB,drug 2,31\nB,drug 2,33\nC,drug 2,50\n"},
                 request);
    const Comparisons found = compare_levels(table, drugs());
    CHECK_THAT(found.rows[0].detectable_change, WithinAbs(1.96 * std::sqrt(3.5), 1e-12));
    CHECK(found.rows[0].changed == 1);
    CHECK(found.rows[0].first.count == 2);
    CHECK(found.rows[1].second.count == 3);
    CHECK(contains(found.findings, "pairs-incomplete"));
}

TEST_CASE("without participants only groups are compared, and unknown levels are refused",
          "[batch][level_comparison]") {
    const LongTable table = table_of({sleep_text()}, request);
    ComparisonOptions options = drugs();
    options.participant.clear();
    const Comparisons found = compare_levels(table, options);
    REQUIRE(found.rows.size() == 1);
    CHECK(found.rows[0].design == Design::independent);
    CHECK(contains(found.findings, "pairs-unknown"));
    options.second = "drug2";
    CHECK(failure_code([&] { (void)compare_levels(table, options); }) == "no-such-level");
}
