#include <jointrom/stats/t_test.hpp>

#include "stats_reference.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> second_minus_first(const std::vector<double>& first, std::vector<double> second) {
    for (std::size_t i = 0; i < second.size(); ++i) {
        second[i] -= first[i];
    }
    return second;
}

Description summary_of(const nlohmann::json& pair, std::size_t which) {
    Description result;
    result.count = pair["n"][which];
    result.mean = pair["mean"][which];
    result.sd = pair["sd"][which];
    return result;
}

}  // namespace

// R's data set sleep, t.test() of R 4.2.2: t -4.0621, df 9, p 0.002833; Welch t -1.8608, df 17.776, p 0.07939.
TEST_CASE("extra sleep differs as in the classic example", "[stats][t_test]") {
    const auto reference = reference_json("reference/stats/agreement.json")["sleep"];
    const std::vector<double> x = reference["x"];
    const std::vector<double> y = reference["y"];
    const TTest paired = paired_t_test(describe(second_minus_first(y, x)));
    const TTest welch = welch_t_test(describe(y), describe(x));
    for (const auto& [found, name] : {std::pair{paired, "paired"}, std::pair{welch, "welch"}}) {
        INFO(name);
        CHECK_THAT(found.difference, WithinAbs(-1.58, 1e-12));
        CHECK_THAT(found.t, WithinRel(reference[name]["t"].get<double>(), 1e-12));
        CHECK_THAT(found.dof, WithinRel(reference[name]["df"].get<double>(), 1e-12));
        CHECK_THAT(found.p, WithinRel(reference[name]["p"].get<double>(), 1e-10));
        CHECK_THAT(found.ci.low, WithinAbs(reference[name]["ci"][0].get<double>(), 1e-10));
        CHECK_THAT(found.ci.high, WithinAbs(reference[name]["ci"][1].get<double>(), 1e-10));
    }
}

// Car mileage, NIST/SEMATECH e-Handbook 1.3.5.3 (Welch as in Boost.Math's documentation: -12.946, df 136.875), and the
// example of NAG's g07ca: t 2.5922, df 7.9925, p 0.0320, interval 0.4410 to 7.5590.
TEST_CASE("published summaries have the published Welch tests", "[stats][t_test]") {
    const auto pairs = reference_json("reference/stats/agreement.json")["summary_pairs"];
    const TTest cars = welch_t_test(summary_of(pairs[0], 1), summary_of(pairs[0], 0));
    CHECK_THAT(cars.t, WithinRel(pairs[0]["t_welch"].get<double>(), 1e-9));
    CHECK_THAT(cars.dof, WithinRel(pairs[0]["df_welch"].get<double>(), 1e-9));
    const TTest small = welch_t_test(summary_of(pairs[1], 1), summary_of(pairs[1], 0));
    CHECK_THAT(small.t, WithinAbs(2.5922, 5e-5));
    CHECK_THAT(small.dof, WithinAbs(7.9925, 5e-5));
    CHECK_THAT(small.p, WithinAbs(0.0320, 5e-5));
    CHECK_THAT(small.ci.low, WithinAbs(0.4410, 5e-5));
    CHECK_THAT(small.ci.high, WithinAbs(7.5590, 5e-5));
}

// sleep again. R 4.2.2: lgamma for g, uniroot over pt(ncp = ) for the intervals.
TEST_CASE("effect sizes are unbiased and have the interval of the noncentral t", "[stats][t_test]") {
    const auto reference = reference_json("reference/stats/agreement.json");
    const std::vector<double> x = reference["sleep"]["x"];
    const std::vector<double> y = reference["sleep"]["y"];
    const EffectSize paired = paired_effect_size(describe(second_minus_first(x, y)));
    CHECK_THAT(paired.d, WithinAbs(1.28455756259105, 1e-12));
    CHECK_THAT(paired.g, WithinAbs(1.1739249035142, 1e-12));
    CHECK_THAT(paired.g_ci.low, WithinAbs(0.378917895996093, 1e-9));
    CHECK_THAT(paired.g_ci.high, WithinAbs(1.93560211252563, 1e-9));
    const EffectSize groups = effect_size(describe(x), describe(y));
    CHECK_THAT(groups.d, WithinAbs(0.83218108134954, 1e-12));
    CHECK_THAT(groups.g, WithinAbs(0.796935239191122, 1e-12));
    CHECK_THAT(groups.g_ci.low, WithinAbs(-0.0914077328051597, 1e-9));
    CHECK_THAT(groups.g_ci.high, WithinAbs(1.66517179067485, 1e-9));
}

// Shoulder flexibility of swimmers (R package PairedData); R 4.2.2.
TEST_CASE("a mean of shoulder angles has the interval of the reference", "[stats][t_test]") {
    const auto expected = reference_json("reference/stats/agreement.json")["shoulder"]["swimmer_left_ci95"];
    std::vector<double> left = reference_column("reference/stats/shoulder_swimmers.csv", "left");
    const ConfidenceInterval found = mean_interval(describe(left));
    CHECK_THAT(found.low, WithinAbs(expected[0].get<double>(), 1e-10));
    CHECK_THAT(found.high, WithinAbs(expected[1].get<double>(), 1e-10));
}

TEST_CASE("large groups have an approximate interval of the effect size", "[stats][t_test]") {
    Description first;
    first.count = 200000;
    first.mean = 130.0;
    first.sd = 10.0;
    Description second = first;
    second.mean = 131.0;
    const EffectSize effect = effect_size(first, second);
    CHECK_THAT(effect.d, WithinAbs(0.1, 1e-12));
    CHECK_THAT(effect.g_ci.high - effect.g_ci.low, WithinRel(2.0 * 1.959964 * std::sqrt(2.0 / 200000.0), 2e-3));
}

TEST_CASE("what few or equal values cannot give is missing", "[stats][t_test]") {
    const Description one = describe(std::vector{3.5});
    const Description equal = describe(std::vector{3.5, 3.5, 3.5});
    CHECK(std::isnan(mean_interval(one).low));
    CHECK(mean_interval(equal).high == 3.5);
    CHECK(paired_t_test(one).difference == 3.5);
    CHECK(std::isnan(paired_t_test(one).p));
    CHECK(std::isnan(paired_t_test(equal).t));
    CHECK(std::isnan(paired_effect_size(equal).g));
    CHECK(std::isnan(welch_t_test(one, equal).t));
    CHECK(std::isnan(welch_t_test(equal, equal).p));
    CHECK(std::isnan(effect_size(equal, equal).d));
    CHECK(std::isnan(effect_size(one, equal).g));
    CHECK(std::isnan(paired_t_test(describe({})).difference));
}
