#include <jointrom/stats/two_way_anova.hpp>

#include "stats_reference.hpp"

#include <jointrom/core/failure.hpp>

using namespace jointrom;
using namespace jointrom::test;

// Shrout and Fleiss 1979, table 2: 11.24, 32.49 (97.46 / 3), 1.02, 6.26.
TEST_CASE("six targets and four judges have the published mean squares", "[stats][two_way_anova]") {
    const auto reference = reference_json("reference/stats/agreement.json")["six_by_four"];
    const TwoWayAnova anova = two_way_anova(score_table(reference["data"]));
    CHECK(anova.rows == 6);
    CHECK(anova.columns == 4);
    CHECK_THAT(anova.ms_rows, WithinRel(reference["ms_subjects"].get<double>(), 1e-12));
    CHECK_THAT(anova.ms_columns, WithinRel(reference["ms_columns"].get<double>(), 1e-12));
    CHECK_THAT(anova.ms_error, WithinRel(reference["ms_error"].get<double>(), 1e-12));
    CHECK_THAT(anova.ms_within, WithinRel(reference["ms_within"].get<double>(), 1e-12));
}

TEST_CASE("rows with a missing score can be left out", "[stats][two_way_anova]") {
    ScoreTable table{.columns = 2, .values = {1.5, 2.5, missing, 3.5, 4.0, missing, 5.0, 7.25}};
    const ScoreTable complete = complete_rows(table);
    CHECK(complete.rows() == 2);
    CHECK(complete.at(1, 1) == 7.25);
    CHECK(complete_rows({}).rows() == 0);
}

TEST_CASE("too few rows or columns and missing scores are refused", "[stats][two_way_anova]") {
    const auto code_of = [](const ScoreTable& table) {
        try {
            (void)two_way_anova(table);
        } catch (const Failure& failure) {
            return failure.code();
        }
        return std::string("none");
    };
    CHECK(code_of({}) == "too-few-subjects");
    CHECK(code_of({.columns = 3, .values = {1.0, 2.0, 3.0}}) == "too-few-subjects");
    CHECK(code_of({.columns = 1, .values = {1.0, 2.0, 3.0}}) == "too-few-repeats");
    CHECK(code_of({.columns = 2, .values = {1.0, 2.0, 3.0, missing}}) == "missing-cell");
}

TEST_CASE("columns that differ by a constant leave no residual", "[stats][two_way_anova]") {
    const TwoWayAnova anova = two_way_anova({.columns = 2, .values = {0.1, 0.3, 130.7, 130.9, 91.3, 91.5}});
    CHECK(anova.ms_error == 0.0);
    CHECK_THAT(anova.ms_columns, WithinRel(3.0 * 2.0 * 0.01, 1e-9));
}
