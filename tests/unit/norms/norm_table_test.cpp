#include "norm_support.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/norms/functional_arcs.hpp>
#include <jointrom/norms/measurement_error.hpp>

#include <cmath>
#include <set>
#include <string>

using namespace jointrom;
using test::built_in_row;
using test::table_of;

namespace {

Failure failure_of(const std::string& text) {
    try {
        (void)table_of(text);
    } catch (const Failure& failure) {
        return failure;
    }
    throw std::logic_error("was accepted");
}

const std::string head = "source,joint,motion,sex,age_min_years,age_max_years,mode,kind,value_deg,sd_deg,sd_basis,"
                         "ci_low_deg,ci_high_deg,n,p5_deg,p50_deg,p95_deg\n";

}  // namespace

TEST_CASE("no number of the built-in tables is without a source that can be looked up", "[norms][norm_table]") {
    REQUIRE(built_in_norms().rows().size() == 234);
    std::set<std::string> keys;
    for (const NormSource& source : built_in_sources()) {
        CAPTURE(source.key);
        CHECK(keys.insert(source.key).second);
        CHECK(source.citation.size() > 20);
        CHECK_FALSE(source.read_in.empty());
        CHECK_FALSE(source.reuse.empty());
    }
    for (const NormRow& row : built_in_norms().rows()) {
        CAPTURE(row.line);
        CHECK(keys.count(row.source) == 1);
        CHECK(built_in_norms().source(row.source).citation.size() > 20);
    }
    for (const FunctionalArc& arc : functional_arcs()) {
        CHECK(keys.count(arc.source) == 1);
    }
    for (const MeasurementError& error : measurement_errors()) {
        CHECK(keys.count(error.source) == 1);
    }
    CHECK_THROWS_AS(built_in_norms().source("nobody"), std::out_of_range);
}

TEST_CASE("a row without a source is refused", "[norms][norm_table]") {
    const Failure failure = failure_of("source,joint,motion,value_deg\n,elbow,flexion,141.5\n");
    CHECK(failure.code() == "norm-cell");
    CHECK(failure.place() == Place{"class.csv", 2, 1});
}

// Joint Range of Motion Study of the US Centers for Disease Control and Prevention (public domain), page as read.
TEST_CASE("means of the CDC study are those of its page", "[norms][norm_table]") {
    struct Cell {
        const char* joint;
        const char* motion;
        Sex sex;
        double mean, low, high;
    };
    for (const Cell& cell : {Cell{"hip", "extension", Sex::female, 26.2, 23.9, 28.5},
                             Cell{"hip", "flexion", Sex::male, 131.1, 129.4, 132.8},
                             Cell{"knee", "flexion", Sex::female, 152.6, 151.2, 154.0},
                             Cell{"knee", "extension", Sex::male, 1.6, 0.9, 2.3},
                             Cell{"ankle", "dorsiflexion", Sex::female, 24.8, 22.5, 27.1}}) {
        const NormRow& row = built_in_row("soucie2011", cell.joint, cell.motion, cell.sex, 5.0);
        CHECK(row.value_deg == cell.mean);
        CHECK(row.ci_low_deg == cell.low);
        CHECK(row.ci_high_deg == cell.high);
        CHECK(row.provenance == Provenance::found);
        CHECK(row.spread_provenance == Provenance::memory);  // n, and the SD with it
        CHECK(row.mode == MotionMode::passive);
    }
}

// 38 CFR 4.71a, General Rating Formula for the Spine, note 2: cervical 45, 45, 45, 80; thoracolumbar 90, 30, 30, 30.
TEST_CASE("single numbers of the spine are those of the regulation", "[norms][norm_table]") {
    struct Cell {
        const char* joint;
        const char* motion;
        double value_deg;
    };
    for (const Cell& cell :
         {Cell{"neck", "flexion", 45}, Cell{"neck", "extension", 45}, Cell{"neck", "left lateral flexion", 45},
          Cell{"neck", "right rotation", 80}, Cell{"trunk", "flexion", 90}, Cell{"trunk", "extension", 30},
          Cell{"trunk", "right lateral flexion", 30}, Cell{"trunk", "left rotation", 30}}) {
        const NormRow& row = built_in_row("38cfr-4.71a", cell.joint, cell.motion);
        CHECK(row.value_deg == cell.value_deg);
        CHECK(row.kind == NormValueKind::single);
        CHECK(std::isnan(row.sd_deg));
        CHECK_FALSE(row.has_age());
    }
    CHECK(built_in_row("38cfr-4.71-plate2", "knee", "flexion").value_deg == 140.0);
}

// Norkin & White, Measurement of Joint Motion, appendix A: elbow flexion and extension, wrist deviations.
TEST_CASE("means of the textbook table keep the signs of its columns", "[norms][norm_table]") {
    CHECK(built_in_row("boone1979", "elbow", "flexion", Sex::male).value_deg == 143.0);
    CHECK(built_in_row("greene1989", "elbow", "flexion").value_deg == 145.0);
    CHECK(built_in_row("walker1984", "elbow", "flexion", {}, 70.0).value_deg == 143.0);
    CHECK(built_in_row("macedo2009", "wrist", "ulnar deviation", Sex::female).value_deg == 41.0);
    CHECK(built_in_row("ama6", "elbow", "flexion").kind == NormValueKind::at_least);
    // The textbook prints 4 as a limitation of extension: 4 short of straight.
    CHECK(built_in_row("walker1984", "elbow", "extension", {}, 70.0).value_deg == -4.0);
    // Soucie prints hyperextension as positive: 0.7 short of straight.
    CHECK(built_in_row("soucie2011", "elbow", "extension", Sex::male, 50.0).value_deg == -0.7);
}

TEST_CASE("a table of one's own needs four columns", "[norms][norm_table]") {
    const NormTable table = table_of("motion,source,value_deg,Joint,citation\n"
                                     "Ulnar_Deviation,our class,33.5,Wrist,Lab session of spring\n");
    REQUIRE(table.rows().size() == 1);
    const NormRow& row = table.rows().front();
    CHECK(row.motion->motion == "deviation");
    CHECK(row.part == MotionPart::positive);
    CHECK_FALSE(row.sex);
    CHECK_FALSE(row.mode);
    CHECK(row.provenance == Provenance::found);
    CHECK(age_text(row) == "any age");
    CHECK(table.name() == "class.csv");
    CHECK(table.source("our class").citation == "Lab session of spring");
}

TEST_CASE("cells of a table are read in every spelling that is documented", "[norms][norm_table]") {
    const NormTable table = table_of(head + "a,elbow,flexion,female,18,44,Active,,141.5,6.2,,,,31,131,142,151\n"
                                            "a,elbow,flexion-extension,M,18.5,,passive,median,146,,,,,,,,\n"
                                            "a,cervical spine,left rotation,both,,9,unstated,single,70,,,,,,,,\n");
    const NormRow& first = table.rows()[0];
    CHECK(first.sex == Sex::female);
    CHECK(first.sd_basis == SdBasis::reported);
    CHECK(first.n == std::size_t{31});
    REQUIRE(first.percentiles.size() == 3);
    CHECK(first.percentiles[1].percent == 50.0);
    CHECK(age_text(first) == "18-44 y");
    const NormRow& second = table.rows()[1];
    CHECK(second.part == MotionPart::arc);
    CHECK(second.direction() == "flexion-extension");
    CHECK(age_text(second) == "18.5 y and over");
    const NormRow& third = table.rows()[2];
    CHECK(third.motion->joint == "neck");
    CHECK(third.part == MotionPart::negative);
    CHECK(age_text(third) == "up to 9 y");
}

TEST_CASE("a malformed table is refused at its line and column with what was expected", "[norms][norm_table]") {
    struct Case {
        std::string text;
        std::string code;
        std::size_t line, column;
        std::string said;
    };
    const std::string row = "a,elbow,flexion,F,20,44,active,mean,141.5,6.2,,,,31,,,\n";
    const std::vector<Case> cases{
        {"source,joint,motion,valu_deg\n", "norm-column-unknown", 1, 4, "Did you mean 'value_deg'?"},
        {"source,joint,,value_deg\n", "norm-column-unknown", 1, 3, "column 3 has no name"},
        {"source,joint,motion\na,elbow,flexion\n", "norm-column-missing", 1, 0, "value_deg"},
        {head, "norms-empty", 0, 0, "no rows"},
        {head + "a,ebow,flexion,F,,,,,141,,,,,,,,\n", "norm-cell", 2, 2, "'elbow'"},
        {head + "a,elbow,felxion,F,,,,,141,,,,,,,,\n", "norm-cell", 2, 3, "'flexion'"},
        {head + "a,elbow,flexion,X,,,,,141,,,,,,,,\n", "norm-cell", 2, 4, "one of: F, M, both"},
        {head + "a,elbow,flexion,F,old,,,,141,,,,,,,,\n", "norm-cell", 2, 5, "a number"},
        {head + "a,elbow,flexion,F,-3,,,,141,,,,,,,,\n", "norm-cell", 2, 5, "from 0 to 120"},
        {head + "a,elbow,flexion,F,44,20,,,141,,,,,,,,\n", "norm-contradiction", 2, 5, "44 years"},
        {head + "a,elbow,flexion,F,,,both,,141,,,,,,,,\n", "norm-cell", 2, 7, "active, passive"},
        {head + "a,elbow,flexion,F,,,,average,141,,,,,,,,\n", "norm-cell", 2, 8, "mean, median"},
        {head + "a,elbow,flexion,F,,,,,,,,,,,,,\n", "norm-cell", 2, 9, "an angle"},
        {head + "a,elbow,flexion,F,,,,,14l,,,,,,,,\n", "norm-cell", 2, 9, "a number"},
        {head + "a,elbow,flexion,F,,,,,2.48,,,,,,,,\n", "norm-radians", 2, 9, "142 degrees"},
        {head + "a,elbow,flexion,F,,,,,1410,,,,,,,,\n", "norm-cell", 2, 9, "from -25 to 165"},
        {head + "a,elbow,flexion,F,,,,,141,-6.2,,,,31,,,\n", "norm-cell", 2, 10, "above 0"},
        {head + "a,elbow,flexion,F,,,,,141,620,,,,31,,,\n", "norm-cell", 2, 10, "whole range"},
        {head + "a,elbow,flexion,F,,,,,141,,,,,31,131,1411,\n", "norm-cell", 2, 16, "from -25 to 165"},
        {head + "a,elbow,flexion,F,,,,single,141,6.2,,,,31,,,\n", "norm-contradiction", 2, 10, "without spread"},
        {head + "a,elbow,flexion,F,,,,,141,,reported,,,31,,,\n", "norm-cell", 2, 10, "standard deviation"},
        {head + "a,elbow,flexion,F,,,,,141,6.2,derived,,,31,,,\n", "norm-contradiction", 2, 11, "ci_low_deg"},
        {head + "a,elbow,flexion,F,,,,,141,6.2,derived,140,142,25,,,\n", "norm-contradiction", 2, 10, "SD of 2.6"},
        {head + "a,elbow,flexion,F,,,,,141,,,142,140,31,,,\n", "norm-contradiction", 2, 12, "limits"},
        {head + "a,elbow,flexion,F,,,,,141,,,,,12.5,,,\n", "norm-cell", 2, 14, "whole number"},
        {head + "a,elbow,flexion,F,,,,,141,,,,,31,131,130,151\n", "norm-contradiction", 2, 16, "must rise"},
        {head + "a,elbow,flexion,F,,,,,161,,,,,31,131,141,151\n", "norm-contradiction", 2, 9, "limits"},
        {head + row + row, "norm-row-twice", 3, 1, "line 2"},
    };
    for (const Case& wrong : cases) {
        CAPTURE(wrong.text);
        const Failure failure = failure_of(wrong.text);
        CHECK(failure.code() == wrong.code);
        CHECK(failure.kind() == FailureKind::unreadable_data);
        CHECK(failure.place() == Place{"class.csv", wrong.line, wrong.column});
        CHECK_THAT(failure.what() + ("\n" + failure.advice()), ContainsSubstring(wrong.said));
    }
}

TEST_CASE("rows that differ in position or kind only are no duplicates", "[norms][norm_table]") {
    const NormTable table = table_of("source,joint,motion,position,value_deg\n"
                                     "a,shoulder,rotation,supine,150\na,shoulder,rotation,sitting,151\n");
    CHECK(table.rows().size() == 2);
    CHECK(table.sources().size() == 1);
}
