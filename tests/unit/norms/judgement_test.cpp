#include <jointrom/norms/judgement.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/table/byte_source.hpp>

#include <support/catch.hpp>

#include <cmath>

using namespace jointrom;

namespace {

// The first three rows are cells of the CDC study (Soucie 2011, public domain): elbow flexion of women of 20 to 44
// years, 149.1 to 150.9 deg is the confidence interval of the mean; elbow extension of men of 45 to 69 years, skewed.
// The others are made up.
const char* const rows =
    "source,joint,motion,sex,age_min_years,age_max_years,mode,kind,value_deg,sd_deg,sd_basis,sd_lo_deg,sd_hi_deg,"
    "ci_low_deg,ci_high_deg,n,min_deg,p25_deg,p50_deg,p75_deg,max_deg,skewed,provenance\n"
    "soucie,elbow,flexion,F,20,44,passive,mean,150.0,5.5,derived,5.2,5.8,149.1,150.9,143,,,,,,,found\n"
    "soucie,elbow,extension,M,45,69,passive,mean,-0.7,3.9,reported,3.7,4.2,-1.5,0.1,96,-12,-3,0,0,14,yes,found\n"
    "soucie,knee,flexion,F,20,44,passive,mean,141.9,5.0,reported,,,,,143,,,,,,,found\n"
    "handbook,elbow,flexion,both,,,,single,150,,,,,,,,,,,,,,found\n"
    "remembered,elbow,flexion,F,20,44,active,mean,146,5,reported,,,,,50,,,,,,,memory\n"
    "larger,elbow,flexion,both,18,60,active,mean,145,6,reported,,,,,500,,,,,,,found\n";

NormTable table() {
    const auto source = text_source(rows);
    return read_norm_table(*source, "made.csv");
}

MeasuredExtent extent(double deg, double u_deg, MotionPart part = MotionPart::positive) {
    MeasuredExtent measured{.part = part, .extent = Degrees(deg)};
    if (u_deg > 0.0) {
        measured.budget.add({"stated", u_deg});
    }
    return measured;
}

NormQuery woman(MotionMode mode, double age = 30.0) {
    return {.motion = &joint_motion("elbow"), .sex = Sex::female, .age_years = age, .mode = mode};
}

}  // namespace

// Limits 150 +- 1.96 SD; z, percentile and probability from the normal distribution (Python 3.11, statistics).
TEST_CASE("a value is placed among the people of its group", "[norms][judgement]") {
    const NormTable norms = table();
    const auto result = judge_extent(norms, woman(MotionMode::passive), extent(141.0, 2.0));
    REQUIRE(result.judgements.size() == 2);
    const Judgement& first = result.judgements.front();
    CHECK(first.norm.row->source == "soucie");
    REQUIRE(first.band);
    CHECK_THAT(first.band->lower_deg, WithinAbs(139.2201980850297, 1e-9));
    CHECK_THAT(first.band->upper_deg, WithinAbs(160.7798019149703, 1e-9));
    CHECK_THAT(first.difference_deg, WithinAbs(-9.0, 1e-12));
    CHECK_THAT(first.standing->z, WithinAbs(-9.0 / 5.5, 1e-12));
    CHECK_THAT(first.standing->percentile_low, WithinAbs(5.088175247562882, 1e-6));
    CHECK_THAT(first.inside_probability, WithinAbs(0.8132404651138276, 1e-9));
    // The confidence interval of the SD allows 5.2 to 5.8 deg, and so the limits 0.6 deg either way.
    CHECK_THAT(first.limit_slack_deg, WithinAbs(1.959963984540054 * 0.3, 1e-9));
    CHECK(result.verdict() == LimitVerdict::cannot_tell);
    // A single number has no spread.
    CHECK_FALSE(result.judgements[1].verdict);
    CHECK_THAT(result.judgements[1].difference_deg, WithinAbs(-9.0, 1e-12));
    CHECK(std::isnan(result.judgements[1].inside_probability));
}

TEST_CASE("verdicts leave out the guard band and what rounding leaves open", "[norms][judgement]") {
    // Limits 139.22 and 160.78; u = 2 deg gives U = 3.92 deg; the limits are known to 0.588 deg.
    struct Row {
        double value, u;
        const char* rule;
        LimitVerdict expected;
    };
    const NormTable norms = table();
    for (const Row& row :
         {Row{143.8, 2.0, "guarded", LimitVerdict::within}, Row{143.6, 2.0, "guarded", LimitVerdict::cannot_tell},
          Row{134.8, 2.0, "guarded", LimitVerdict::cannot_tell}, Row{134.6, 2.0, "guarded", LimitVerdict::below},
          Row{165.4, 2.0, "guarded", LimitVerdict::above}, Row{139.9, 2.0, "simple", LimitVerdict::within},
          Row{139.7, 2.0, "simple", LimitVerdict::cannot_tell}, Row{138.7, 2.0, "simple", LimitVerdict::cannot_tell},
          Row{138.5, 2.0, "simple", LimitVerdict::below}, Row{143.2, 2.0, "probability", LimitVerdict::within},
          Row{143.0, 2.0, "probability", LimitVerdict::cannot_tell},
          Row{150.0, 0.0, "guarded", LimitVerdict::cannot_tell}, Row{150.0, 0.0, "simple", LimitVerdict::within}}) {
        CAPTURE(row.value, row.rule);
        const JudgingOptions options{.rule = decision_rule_named(row.rule)};
        const auto result = judge_extent(norms, woman(MotionMode::passive), extent(row.value, row.u), options);
        CHECK(result.verdict() == row.expected);
        CHECK(contains(result.findings, "uncertainty-missing") == (row.u == 0.0));
    }
}

TEST_CASE("a skewed row gives percentiles and no z", "[norms][judgement]") {
    const NormTable norms = table();
    const NormQuery man{
        .motion = &joint_motion("elbow"), .sex = Sex::male, .age_years = 50.0, .mode = MotionMode::passive};
    const auto result = judge_extent(norms, man, extent(-2.0, 1.0, MotionPart::negative));
    REQUIRE(result.judgements.size() == 1);
    const Judgement& only = result.judgements.front();
    CHECK(std::isnan(only.standing->z));
    CHECK(only.standing->percentile_low == 25.0);
    CHECK(only.standing->percentile_high == 50.0);
    REQUIRE(only.band);
    CHECK(only.band->basis == BandBasis::extremes);
    CHECK(only.band->lower_deg == -12.0);
    CHECK(only.band->upper_deg == 14.0);
    CHECK(only.limit_slack_deg == 0.0);
    CHECK(only.verdict == LimitVerdict::within);
}

TEST_CASE("another sex, age or mode is no match and the reason says what is missing", "[norms][judgement]") {
    const NormTable norms = table();
    NormQuery query{.motion = &joint_motion("knee"), .sex = Sex::male, .age_years = 30.0, .mode = MotionMode::passive};
    auto result = judge_extent(norms, query, extent(140.0, 2.0));
    CHECK(result.judgements.empty());
    CHECK_FALSE(result.verdict());
    CHECK(contains(result.findings, "norm-missing"));
    CHECK_THAT(result.no_verdict, ContainsSubstring("sex"));
    query.sex = Sex::female;
    query.age_years = 70.0;
    CHECK_THAT(judge_extent(norms, query, extent(140.0, 2.0)).no_verdict, ContainsSubstring("age"));
    query.age_years = 30.0;
    query.mode = MotionMode::active;
    result = judge_extent(norms, query, extent(140.0, 2.0));
    CHECK(result.judgements.empty());
    CHECK_THAT(result.no_verdict, ContainsSubstring("--against passive"));
    CHECK_THROWS_AS(judge_extent(norms, woman(MotionMode::active, 300.0), extent(140.0, 2.0)), Failure);
}

TEST_CASE("rows of another mode are used only when asked for and with a warning", "[norms][judgement]") {
    const NormTable norms = table();
    NormQuery query{.motion = &joint_motion("knee"), .sex = Sex::female, .age_years = 30.0, .mode = MotionMode::active};
    const auto result = judge_extent(norms, query, extent(140.0, 2.0), {.against = MotionMode::passive});
    REQUIRE(result.judgements.size() == 1);
    CHECK(result.judgements.front().is_other_mode);
    CHECK(contains(result.findings, "norm-passive-measured-active"));
    query.mode = MotionMode::passive;
    CHECK(judge_extent(norms, query, extent(140.0, 2.0)).findings.empty());
}

TEST_CASE("the row that fits best counts", "[norms][judgement]") {
    const NormTable norms = table();
    const auto result = judge_extent(norms, woman(MotionMode::active), extent(146.0, 1.0));
    // Her own sex and age come before the larger group of both; the handbook without spread is last.
    REQUIRE(result.judgements.size() == 3);
    CHECK(result.judgements[0].norm.row->source == "remembered");
    CHECK(result.judgements[1].norm.row->source == "larger");
    CHECK(result.judgements[2].norm.row->source == "handbook");
    CHECK(contains(result.findings, "norm-from-memory"));
    const auto one = judge_extent(norms, woman(MotionMode::active), extent(146.0, 1.0), {.source = "larger"});
    CHECK(one.judgements.size() == 1);
    CHECK(one.findings.empty());
}

TEST_CASE("a single number gives a difference and tells where a spread is", "[norms][judgement]") {
    const NormTable norms = table();
    const auto result = judge_extent(norms, woman(MotionMode::passive, 80.0), extent(141.0, 2.0));
    REQUIRE(result.judgements.size() == 1);
    CHECK_FALSE(result.verdict());
    CHECK(contains(result.findings, "norm-single-number"));
    CHECK_FALSE(result.no_verdict.empty());
}

TEST_CASE("a value in radians is noticed", "[norms][judgement]") {
    const NormTable norms = table();
    CHECK(contains(judge_extent(norms, woman(MotionMode::passive), extent(2.46, 0.03)).findings,
                   "value-suspect-radians"));
    CHECK_FALSE(
        contains(judge_extent(norms, woman(MotionMode::passive), extent(30.0, 2.0)).findings, "value-suspect-radians"));
    CHECK_FALSE(
        contains(judge_extent(norms, woman(MotionMode::passive), extent(0.4, 2.0)).findings, "value-suspect-radians"));
}

TEST_CASE("without an uncertainty the usual one of the joint is taken and said", "[norms][judgement]") {
    MeasuredExtent measured = extent(141.0, 0.0);
    assume_usual_error(joint_motion("elbow"), measured);
    // Testers need to differ by 5 deg (Boone 1978): 5 / (1.96 sqrt 2).
    CHECK_THAT(measured.budget.standard_uncertainty(), WithinAbs(1.8038, 1e-4));
    CHECK_THAT(measured.assumed_basis, ContainsSubstring("boone1978"));
    const NormTable norms = table();
    CHECK(contains(judge_extent(norms, woman(MotionMode::passive), measured).findings, "uncertainty-assumed"));
    MeasuredExtent unknown = extent(20.0, 0.0);
    assume_usual_error(unknown_joint_motion(), unknown);
    CHECK_FALSE(unknown.has_uncertainty());
}

TEST_CASE("every judgement carries the caution", "[norms][judgement]") {
    for (const char* part : {"not a diagnosis", "norms describe groups", "licensed clinician", "local rules"}) {
        CHECK_THAT(std::string(caution_line()), ContainsSubstring(part));
    }
}
