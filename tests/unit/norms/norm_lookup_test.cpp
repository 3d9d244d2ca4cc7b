#include "norm_support.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/norms/norm_coverage.hpp>
#include <jointrom/norms/norm_difference.hpp>

#include <algorithm>

using namespace jointrom;

namespace {

NormQuery query(std::string_view joint, std::string_view motion, std::optional<Sex> sex = {},
                std::optional<double> age_years = {}, std::optional<MotionMode> mode = {}, std::string source = {}) {
    const NamedPart named = motion_part(joint, motion);
    return {.motion = named.motion,
            .part = named.part,
            .sex = sex,
            .age_years = age_years,
            .mode = mode,
            .source = std::move(source)};
}

std::string code_of(const NormQuery& asked) {
    try {
        (void)find_norms(built_in_norms(), asked);
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "none";
}

using Missing = std::vector<NormCriterion>;

}  // namespace

TEST_CASE("a row matches when sex, age and mode are its own", "[norms][norm_lookup]") {
    const auto found =
        find_norms(built_in_norms(), query("elbow", "flexion", Sex::female, 44.9, MotionMode::passive, "soucie2011"));
    REQUIRE(found.matches.size() == 1);
    CHECK(found.matches.front().row->value_deg == 150.0);
    CHECK(found.matches.front().remarks() == "spread from memory");
    CHECK(found.reason.empty());
    const auto older =
        find_norms(built_in_norms(), query("elbow", "flexion", Sex::female, 45.0, MotionMode::passive, "soucie2011"));
    CHECK(older.matches.front().row->value_deg == 148.3);
}

TEST_CASE("a row that is less particular than the question says so", "[norms][norm_lookup]") {
    const auto found =
        find_norms(built_in_norms(), query("elbow", "flexion", Sex::female, 30.0, MotionMode::active, "aaos"));
    REQUIRE(found.matches.size() == 1);
    CHECK(found.matches.front().sex_pooled);
    CHECK(found.matches.front().age_unstated);
    CHECK(found.matches.front().mode_unstated);
    CHECK(found.matches.front().remarks() == "both sexes together, age not stated, active or passive not stated");
}

TEST_CASE("nothing is taken instead of what was asked for", "[norms][norm_lookup]") {
    struct Case {
        NormQuery asked;
        Missing missing;
        std::string said;
    };
    const std::vector<Case> cases{
        {query("thumb mcp", "extension"), {NormCriterion::motion}, "covered are: flexion"},
        {query("wrist", "deviation"), {NormCriterion::motion}, "radial deviation"},
        {query("forearm", "isb pronation"), {NormCriterion::motion}, "thumb-up"},
        {query("elbow", "flexion", Sex::female, 30.0, MotionMode::active, "soucie2011"),
         {NormCriterion::mode},
         "soucie2011 (F, 20-44 y, passive)"},
        {query("elbow", "flexion", Sex::female, 80.0, MotionMode::passive, "soucie2011"),
         {NormCriterion::age},
         "soucie2011 (F, 45-69 y, passive)"},
        {query("elbow", "flexion", {}, 30.0, MotionMode::passive, "soucie2011"), {NormCriterion::sex}, "sex not given"},
        {query("elbow", "flexion", Sex::male, {}, MotionMode::passive, "soucie2011"),
         {NormCriterion::age},
         "age not given"},
        {query("knee", "flexion", Sex::male, 30.0, MotionMode::active, "soucie2011"), {NormCriterion::mode}, "passive"},
        {query("knee", "flexion", Sex::male, 30.0, MotionMode::active, "walker1984"), {NormCriterion::source}, "aaos"},
    };
    for (const Case& asked : cases) {
        const NormLookup found = find_norms(built_in_norms(), asked.asked);
        CAPTURE(found.reason);
        CHECK(found.matches.empty());
        CHECK(found.missing == asked.missing);
        CHECK_THAT(found.reason, ContainsSubstring(asked.said));
    }
}

TEST_CASE("a joint that the table lacks is named as what is missing", "[norms][norm_lookup]") {
    const NormTable table = test::table_of("source,joint,motion,value_deg\na,elbow,flexion,141.5\n");
    const NormLookup found = find_norms(table, query("knee", "flexion"));
    CHECK(found.missing == Missing{NormCriterion::joint});
    CHECK(found.reason == "No norm covers the knee.");
}

TEST_CASE("unknown sources and ages that nobody has are refused", "[norms][norm_lookup]") {
    CHECK(code_of(query("elbow", "flexion", {}, {}, {}, "soucie2012")) == "source-unknown");
    CHECK(code_of(query("elbow", "flexion", {}, -1.0)) == "age-implausible");
    CHECK(code_of(query("elbow", "flexion", {}, 121.0)) == "age-implausible");
    CHECK(code_of(query("elbow", "flexion", {}, std::numeric_limits<double>::quiet_NaN())) == "age-implausible");
    CHECK(code_of(query("elbow", "flexion", {}, 120.0)) == "none");
}

TEST_CASE("age limits count completed years unless they have decimals", "[norms][norm_lookup]") {
    NormRow row;
    row.age_min_years = 1.5;
    row.age_max_years = 54.0;
    CHECK_FALSE(holds_age(row, 1.4));
    CHECK(holds_age(row, 1.5));
    CHECK(holds_age(row, 54.99));
    CHECK_FALSE(holds_age(row, 55.0));
    row.age_max_years = 54.5;
    CHECK_FALSE(holds_age(row, 54.6));
    CHECK(holds_age(NormRow{}, 3.0));
}

TEST_CASE("a listing lets everything through that is not filtered", "[norms][norm_lookup]") {
    const NormTable& table = built_in_norms();
    CHECK(filtered_norms(table, {}).size() == table.rows().size());
    const auto elbow = filtered_norms(table, {.joint = "Elbow", .motion = "flexion-extension", .sex = Sex::female});
    CHECK(std::ranges::any_of(elbow, [](const NormRow* row) { return row->direction() == "extension"; }));
    CHECK(std::ranges::none_of(elbow, [](const NormRow* row) { return row->sex == Sex::male; }));
    const auto rotations = filtered_norms(table, {.motion = "medial rotation"});
    CHECK(std::ranges::any_of(rotations, [](const NormRow* row) { return row->motion->joint == "hip"; }));
    CHECK(std::ranges::any_of(rotations, [](const NormRow* row) { return row->motion->joint == "shoulder"; }));
    CHECK_THROWS_AS(filtered_norms(table, {.motion = "levitation"}), Failure);
    CHECK_THROWS_AS(filtered_norms(table, {.joint = "nose"}), Failure);
    CHECK_THROWS_AS(filtered_norms(table, {.source = "nobody"}), Failure);
}

TEST_CASE("rows from memory are counted", "[norms][norm_lookup]") {
    const auto rows = filtered_norms(built_in_norms(), {.joint = "knee", .motion = "flexion", .source = "soucie2011"});
    REQUIRE(rows.size() == 8);
    const Findings findings = memory_findings(rows);
    REQUIRE(findings.size() == 1);
    CHECK(findings.front().code() == "norm-from-memory");
    // 9-19 y rest on memory; for 2-8 and 20-44 y the number of people does, and the SD with it.
    CHECK(findings.front().text == "from memory: the value of 2 and the spread of 4 of 8 rows");
    CHECK(memory_findings(filtered_norms(built_in_norms(), {.source = "aaos"})).empty());
}

TEST_CASE("sources are compared about people that could be the same", "[norms][norm_difference]") {
    const NormTable table = test::table_of("source,joint,motion,sex,age_min_years,age_max_years,mode,value_deg,sd_deg\n"
                                           "a,elbow,flexion,F,20,44,passive,150,3\n"
                                           "b,elbow,flexion,both,40,60,passive,146,4\n"
                                           "c,elbow,flexion,M,20,44,passive,144,\n"
                                           "d,elbow,flexion,both,,,active,143,\n"
                                           "e,elbow,flexion,both,,,,140,\n"
                                           "f,elbow,flexion,both,70,80,passive,120,\n");
    const auto rows = filtered_norms(table, {});
    const auto pairs = norm_differences(rows);
    const auto find = [&](std::string_view first, std::string_view second) {
        return std::ranges::find_if(pairs, [&](const NormDifference& pair) {
            return pair.first->source == first && pair.second->source == second;
        });
    };
    REQUIRE(find("a", "b") != pairs.end());
    CHECK(find("a", "b")->difference_deg == -4.0);
    // Root mean square of 3 and 4 is 3.5355.
    CHECK_THAT(find("a", "b")->difference_sd, WithinAbs(-4.0 / 3.5355339059, 1e-9));
    CHECK(find("a", "c") == pairs.end());  // other sex
    CHECK(find("a", "d") == pairs.end());  // other mode
    CHECK(find("a", "f") == pairs.end());  // other age
    CHECK(find("a", "e") != pairs.end());
    CHECK(find("d", "e") != pairs.end());
    CHECK_THAT(find("a", "e")->difference_sd, WithinAbs(-10.0 / 3.0, 1e-9));
    CHECK(std::isnan(find("d", "e")->difference_sd));
    CHECK(pairs.front().first->source == "a");  // stated modes first, the greatest difference first
    CHECK(pairs.front().second->source == "b");
}

// Cervical rotation: the handbook of 1965 has 60, 38 CFR 4.71a has 80.
TEST_CASE("known disagreements of the built-in table come out", "[norms][norm_difference]") {
    const auto pairs =
        norm_differences(filtered_norms(built_in_norms(), {.joint = "neck", .motion = "right rotation"}));
    CHECK(std::ranges::any_of(pairs, [](const NormDifference& pair) {
        return pair.first->source == "aaos" && pair.second->source == "38cfr-4.71a" && pair.difference_deg == 20.0;
    }));
}

TEST_CASE("coverage tells ages with a range, with a mean and with nothing", "[norms][norm_coverage]") {
    const NormFilter filter{.joint = "elbow", .motion = "flexion", .sex = Sex::female, .mode = MotionMode::passive};
    const auto coverage = norm_coverage(built_in_norms(), filter);
    REQUIRE(coverage.size() == 1);
    CHECK(coverage.front().has_any_age);
    CHECK(span_text(coverage.front().with_band) == "20-69");            // Soucie 2011
    CHECK(span_text(coverage.front().without_band) == "18-19, 70-99");  // Macedo 2009, Fiebert 1993
    CHECK(span_text(coverage.front().uncovered) == "0-17");
    const auto nothing = norm_coverage(built_in_norms(), {.joint = "thumb cmc", .motion = "adduction"});
    REQUIRE(nothing.size() == 4);
    CHECK(span_text(nothing.front().uncovered) == "0-99");
    CHECK_FALSE(nothing.front().has_any_age);
    CHECK(norm_coverage(built_in_norms(), {.joint = "elbow", .age_years = 30.0, .mode = MotionMode::passive}).empty());
}
