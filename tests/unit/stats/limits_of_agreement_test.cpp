#include <jointrom/stats/limits_of_agreement.hpp>

#include "stats_reference.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

struct PeakFlow {
    nlohmann::json reference = reference_json("reference/stats/agreement.json")["peak_flow"];
    std::vector<double> large = reference["wright1"];
    std::vector<double> small = reference["mini1"];
};

void check_interval(ConfidenceInterval found, const nlohmann::json& expected, double tolerance) {
    CHECK_THAT(found.low, WithinAbs(expected[0].get<double>(), tolerance));
    CHECK_THAT(found.high, WithinAbs(expected[1].get<double>(), tolerance));
}

}  // namespace

// Bland and Altman 1986, table 1, first measurements, large minus small meter: bias -2.1, SD 38.8, limits -79.7
// and 75.5, intervals -22.0 to 17.8 and (their standard errors being rounded) -114.3 to -45.1 and 40.9 to 110.1 l/min.
TEST_CASE("peak flow meters agree as in the paper", "[stats][limits_of_agreement]") {
    const PeakFlow flow;
    const auto found = limits_of_agreement(flow.small, flow.large, {.factor = 2.0, .rounded_standard_error = true});
    CHECK(found.count == 17);
    CHECK_THAT(found.bias, WithinAbs(-2.1, 0.05));
    CHECK_THAT(found.sd, WithinAbs(38.8, 0.05));
    CHECK_THAT(found.lower, WithinAbs(-79.7, 0.1));
    CHECK_THAT(found.upper, WithinAbs(75.5, 0.1));
    check_interval(found.bias_ci, {-22.0, 17.8}, 0.05);
    check_interval(found.lower_ci, {-114.3, -45.1}, 0.15);
    check_interval(found.upper_ci, {40.9, 110.1}, 0.2);
    const auto& exact = flow.reference["limits_2sd"];
    CHECK_THAT(found.lower, WithinAbs(exact["lower"].get<double>(), 1e-9));
    check_interval(found.lower_ci, exact["ci_lower"], 1e-9);
    check_interval(found.upper_ci, exact["ci_upper"], 1e-9);
}

// The same data; computed with R 4.2.2, lm() for the trends.
TEST_CASE("intervals and trends are those of the reference", "[stats][limits_of_agreement]") {
    const PeakFlow flow;
    const auto found = limits_of_agreement(flow.small, flow.large);
    const auto& exact = flow.reference["limits_196sd"];
    CHECK_THAT(found.upper, WithinAbs(exact["upper"].get<double>(), 1e-9));
    check_interval(found.bias_ci, exact["ci_bias"], 1e-9);
    check_interval(found.lower_ci, exact["ci_lower_better"], 1e-9);
    check_interval(found.upper_ci, exact["ci_upper_better"], 1e-9);
    CHECK_THAT(found.trend.slope, WithinAbs(0.0286874451525492, 1e-12));
    CHECK_THAT(found.trend.intercept, WithinAbs(-15.0674973000390, 1e-9));
    CHECK_THAT(found.trend.p, WithinAbs(0.749498533649294, 1e-10));
    check_interval(found.trend.slope_ci, {-0.159320063683956, 0.216694953989055}, 1e-10);
    CHECK_THAT(found.spread.slope, WithinAbs(-0.0855265360177654, 1e-10));
    CHECK_THAT(found.spread.p, WithinAbs(0.1140713079315239, 1e-9));
}

// Computed with R 4.2.2: exp of mean and limits of log(mini) - log(wright).
TEST_CASE("limits of the ratio are factors", "[stats][limits_of_agreement]") {
    const PeakFlow flow;
    const auto found = ratio_limits_of_agreement(flow.large, flow.small);
    CHECK_THAT(found.bias, WithinAbs(1.01185425122165, 1e-12));
    CHECK_THAT(found.lower, WithinAbs(0.796828348784173, 1e-12));
    CHECK_THAT(found.upper, WithinAbs(1.28490537174982, 1e-12));
    CHECK(found.bias_ci.low < found.bias);
    const auto none = ratio_limits_of_agreement(std::vector{1.0, 2.0, -3.0}, std::vector{1.5, 2.0, 3.0});
    CHECK(none.count == 0);
    CHECK(std::isnan(none.bias));
}

// Eliasziw et al. 1994: means of three readings a device; computed with R 4.2.2.
TEST_CASE("two goniometers agree as in the reference", "[stats][limits_of_agreement]") {
    const auto expected = reference_json("reference/stats/agreement.json")["goniometer"]["bland_altman_of_means"];
    const auto mean_of = [](const std::string& device) {
        std::vector<double> mean(29, 0.0);
        for (const char* repeat : {"1", "2", "3"}) {
            const auto readings = reference_column("reference/stats/goniometer_29x6.csv", device + repeat);
            for (std::size_t i = 0; i < mean.size(); ++i) {
                mean[i] += readings[i] / 3.0;
            }
        }
        return mean;
    };
    const auto found = limits_of_agreement(mean_of("L"), mean_of("U"));
    CHECK_THAT(found.bias, WithinAbs(expected["bias"].get<double>(), 1e-12));
    CHECK_THAT(found.sd, WithinAbs(expected["sd"].get<double>(), 1e-12));
    CHECK_THAT(found.lower, WithinAbs(expected["lower196"].get<double>(), 1e-12));
    CHECK_THAT(found.upper, WithinAbs(expected["upper196"].get<double>(), 1e-12));
}

TEST_CASE("pairs with a missing value are left out and few pairs give less", "[stats][limits_of_agreement]") {
    const auto two = limits_of_agreement(std::vector{1.0, missing, 4.0}, std::vector{2.0, 5.0, 7.0});
    CHECK(two.count == 2);
    CHECK(two.left_out == 1);
    CHECK(two.bias == 2.0);
    CHECK_THAT(two.upper, WithinAbs(2.0 + 1.96 * std::sqrt(2.0), 1e-12));
    CHECK(std::isnan(two.bias_ci.low));
    CHECK(std::isnan(two.trend.slope));
    const auto one = limits_of_agreement(std::vector{1.0}, std::vector{3.5});
    CHECK(one.bias == 2.5);
    CHECK(std::isnan(one.sd));
    CHECK(limits_of_agreement({}, {}).count == 0);
}

TEST_CASE("a constant difference has limits that coincide", "[stats][limits_of_agreement]") {
    const auto found = limits_of_agreement(std::vector{1.0, 2.0, 4.0, 8.0}, std::vector{3.5, 4.5, 6.5, 10.5});
    CHECK(found.lower == 2.5);
    CHECK(found.upper == 2.5);
    CHECK_THAT(found.trend.slope, WithinAbs(0.0, 1e-15));
}
