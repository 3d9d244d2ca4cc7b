#include <jointrom/batch/norm_comparison.hpp>

#include "class_table.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const LongTableRequest request{{"participant", "side", "joint", "motion", "sex", "age_years"},
                               {"positive_deg", "negative_deg"}};

/// Elbows of six people; the reference table below: flexion 140 (SD 5), so 130.2 to 149.8.
const std::string class_text = "participant,side,joint,motion,sex,age_years,positive_deg,negative_deg\n"
                               "P1,left,elbow,flexion-extension,F,21,141,-2\n"
                               "P1,left,elbow,flexion-extension,F,21,143,-4\n"
                               "P2,left,elbow,flexion-extension,F,22,120,-1\n"
                               "P3,left,elbow,flexion-extension,F,25,160,-3\n"
                               "P4,left,elbow,flexion-extension,F,29,131,\n"
                               "P5,left,elbow,flexion-extension,M,23,139,-1\n"
                               "P6,left,elbow,flexion-extension,M,24,145,3\n";

NormTable reference_table() {
    const auto source = text_source("source,joint,motion,sex,mode,value_deg,sd_deg,n\n"
                                    "spring class,elbow,flexion,F,active,140,5,24\n");
    return read_norm_table(*source, "reference");
}

const NormComparisonOptions options{
    .by = {"side"}, .participant = "participant", .mode = MotionMode::active, .sex = {}, .age_years = {}, .source = {}};

}  // namespace

TEST_CASE("participants are judged by the normal range of their sex", "[batch][norm_comparison]") {
    const LongTable table = table_of({class_text}, request);
    const NormComparisons found = compare_with_norms(table, {}, reference_table(), options);
    CHECK(found.by == std::vector<std::string>{"joint", "motion", "side"});
    REQUIRE(found.rows.size() == 1);
    const NormComparison& row = found.rows[0];
    CHECK(row.group == std::vector<std::string>{"elbow", "flexion-extension", "left"});
    CHECK(row.direction == "flexion");
    CHECK(row.source == "spring class");
    CHECK(row.participants == 4);
    CHECK(row.below == 1);
    CHECK(row.inside == 2);
    CHECK(row.above == 1);
    CHECK(row.mean == 138.25);  // 142, 120, 160, 131
    CHECK(row.norm_mean == 140.0);
    CHECK_THAT(row.mean_z, WithinAbs(-0.35, 1e-12));
    CHECK(contains(found.findings, "norms-unmatched"));
}

TEST_CASE("a value too near a limit for its uncertainty is undecided", "[batch][norm_comparison]") {
    const LongTable table = table_of({class_text}, request);
    const std::vector<NumberColumn> expanded{{"positive_u95_deg", std::vector<double>(7, 2.0)}};
    const NormComparisons found = compare_with_norms(table, expanded, reference_table(), options);
    CHECK(found.rows[0].undecided == 1);  // 131 is within 2 of 130.2
    CHECK(found.rows[0].inside == 1);
}

TEST_CASE("a class becomes a table of reference values that can be read", "[batch][norm_comparison]") {
    const LongTable table = table_of({class_text}, request);
    const std::string text = class_norm_table(table, options, "our class");
    const auto source = text_source(text);
    const NormTable norms = read_norm_table(*source, "class");
    REQUIRE(norms.rows().size() == 4);
    const NormRow& flexion = norms.rows()[0];
    CHECK(flexion.source == "our class");
    CHECK(flexion.direction() == "flexion");
    CHECK(flexion.sex == Sex::female);
    CHECK(flexion.n == 4U);
    CHECK_THAT(flexion.value_deg, WithinAbs(138.25, 0.005));
    CHECK(flexion.age_min_years == 21.0);
    CHECK(flexion.age_max_years == 29.0);
    CHECK(flexion.position == "left");
    CHECK(norms.rows()[2].direction() == "extension");
    CHECK_THAT(norms.rows()[2].value_deg, WithinAbs(7.0 / 3.0, 0.005));  // 3, 1 and 3 beyond straight
    CHECK_THAT(norms.rows()[3].value_deg, WithinAbs(-1.0, 0.005));       // 1 beyond and 3 short of it
}

TEST_CASE("what cannot be compared is refused or told", "[batch][norm_comparison]") {
    const LongTable one = table_of({"participant,side,joint,motion,sex,age_years,positive_deg,negative_deg\n"
                                    "P1,left,elbow,flexion-extension,F,21,141,-2\n"},
                                   request);
    CHECK(failure_code([&] { (void)class_norm_table(one, options, "x"); }) == "norm-table-empty");
    const auto code_for = [](const std::string& row) {
        const LongTable table =
            table_of({"participant,side,joint,motion,sex,age_years,positive_deg,negative_deg\n" + row}, request);
        return failure_code([&] { (void)compare_with_norms(table, {}, reference_table(), options); });
    };
    CHECK(code_for("P1,left,elbw,flexion-extension,F,21,141,-2\n") == "joint-unknown");
    CHECK(code_for("P1,left,elbow,flexion-extension,F,old,141,-2\n") == "not-a-number");
    CHECK(code_for("P1,left,elbow,flexion-extension,X,21,141,-2\n") == "sex-unknown");
    CHECK(code_for("P1,left,,,F,21,141,-2\n") == "none");
}
