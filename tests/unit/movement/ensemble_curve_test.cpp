#include <jointrom/movement/ensemble_curve.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/movement/range_of_motion.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>
#include <support/reference_file.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace jointrom;
using namespace jointrom::test;

namespace {

using Curves = std::vector<std::vector<double>>;

nlohmann::json reference() {
    return reference_json("reference/movement/kinematics.json");
}

void check_close(const std::vector<double>& values, const nlohmann::json& expected, double tolerance) {
    REQUIRE(values.size() == expected.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        CHECK_THAT(values[i], WithinAbs(expected.at(i).get<double>(), tolerance));
    }
}

void check_ensemble(const EnsembleCurve& ensemble, const nlohmann::json& expected) {
    check_close(ensemble.mean_deg, expected.at("mean"), 1e-9);
    check_close(ensemble.sd_deg, expected.at("sd"), 1e-9);
    check_close(ensemble.rmsd_deg, expected.at("rmsd_to_mean"), 1e-9);
    CHECK_THAT(ensemble.average_sd_deg, WithinRel(expected.at("average_sd").get<double>(), 1e-9));
    CHECK_THAT(ensemble.cv_pct, WithinRel(expected.at("cv_percent_mean_abs").get<double>(), 1e-9));
    REQUIRE(ensemble.cmc);
    CHECK_THAT(*ensemble.cmc, WithinRel(expected.at("cmc").get<double>(), 1e-9));
}

}  // namespace

// By hand: SD 1 2 1 1 1, average SD sqrt(1.6), mean of |mean| 8.2, CV 15.425745 %; CMC 0.987889.
TEST_CASE("a small ensemble has the values worked out by hand", "[movement][ensemble_curve]") {
    const auto expected = reference().at("small_ensemble");
    const auto ensemble = ensemble_of(expected.at("curves").get<Curves>());
    check_ensemble(ensemble, expected);
    CHECK_THAT(ensemble.cv_pct, WithinAbs(100 * std::sqrt(1.6) / 8.2, 1e-9));
    CHECK(ensemble.percent(0) == 0.0);
    CHECK(ensemble.percent(1) == 25.0);
    CHECK(ensemble.percent(4) == 100.0);
}

TEST_CASE("noisy repetitions are averaged at 101 points", "[movement][ensemble_curve]") {
    const auto expected = reference().at("time_normalised");
    const auto trace =
        trace_from_angles(reference_column("reference/movement/elbow_reps_100hz.csv", "noisy_deg"), Hertz(100));
    std::vector<Repetition> repetitions(5);
    for (std::size_t i = 0; i < 5; ++i) {
        repetitions[i].span = {100 + 270 * i, 320 + 270 * i};  // the true start and end
    }
    check_ensemble(ensemble_curve(trace, repetitions), expected.at("linear"));
    check_ensemble(ensemble_curve(trace, repetitions, 101, Interpolation::cubic), expected.at("cubic_not_a_knot"));
}

TEST_CASE("knee angles of 39 boys have the published spread", "[movement][ensemble_curve]") {
    const auto expected = reference_json("reference/movement/gait_knee.json");
    const auto curves = expected.at("knee_deg").get<Curves>();
    const auto ensemble = ensemble_of(curves);
    CHECK_THAT(ensemble.cv_pct, WithinRel(expected.at("cv_percent_mean_abs").get<double>(), 1e-9));
    CHECK_THAT(ensemble.cmc.value_or(0), WithinRel(expected.at("cmc").get<double>(), 1e-9));
    CHECK_THAT(std::ranges::max(ensemble.mean_deg), WithinRel(expected.at("max_of_mean").get<double>(), 1e-9));
    double sum = 0.0;
    double squares = 0.0;
    const double mean = expected.at("rom_mean").get<double>();
    for (const auto& curve : curves) {
        const double arc = range_of_motion(trace_from_angles(curve, Hertz(20))).arc.value();
        sum += arc;
        squares += (arc - mean) * (arc - mean);
    }
    CHECK_THAT(sum / 39, WithinRel(mean, 1e-12));
    CHECK_THAT(std::sqrt(squares / 38), WithinRel(expected.at("rom_sd").get<double>(), 1e-12));
}

TEST_CASE("a correlation that would not be real is left out", "[movement][ensemble_curve]") {
    const auto opposed = ensemble_of({{0, 10, 0}, {10, 0, 10}});
    CHECK_FALSE(opposed.cmc);
    CHECK_THAT(opposed.mean_deg[1], WithinAbs(5, 1e-12));
    CHECK_FALSE(ensemble_of({{3, 3}, {3, 3}}).cmc);
}

TEST_CASE("one curve has a mean and no spread", "[movement][ensemble_curve]") {
    const auto single = ensemble_of({{1, 2, 3}});
    CHECK(single.mean_deg == std::vector<double>{1, 2, 3});
    CHECK(std::isnan(single.sd_deg[0]));
    CHECK(std::isnan(single.cv_pct));
    CHECK_FALSE(single.cmc);
    CHECK(single.rmsd_deg == std::vector<double>{0});
    CHECK(ensemble_of({}).mean_deg.empty());
}

TEST_CASE("a missing point makes the figures over all points missing", "[movement][ensemble_curve]") {
    const auto ensemble = ensemble_of({{0, 1, 2}, {0, std::numeric_limits<double>::quiet_NaN(), 4}});
    CHECK(std::isnan(ensemble.mean_deg[1]));
    CHECK_THAT(ensemble.mean_deg[2], WithinAbs(3, 1e-12));
    CHECK(std::isnan(ensemble.cv_pct));
    CHECK_FALSE(ensemble.cmc);
}

TEST_CASE("curves of different lengths are refused", "[movement][ensemble_curve]") {
    CHECK_THROWS_AS(ensemble_of({{1, 2, 3}, {1, 2}}), Failure);
    CHECK_THROWS_AS(ensemble_of({{1}}), Failure);
}
