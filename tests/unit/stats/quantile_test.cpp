#include <jointrom/stats/quantile.hpp>

#include "stats_reference.hpp"

#include <algorithm>
#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

// R 4.2.2: quantile(type = 1 ... 9).
TEST_CASE("all nine definitions give the reference quantiles", "[stats][quantile]") {
    const auto reference = reference_json("reference/stats/quantiles.json");
    const std::vector<double> x = reference["x"];
    const std::vector<double> p = reference["p"];
    for (const auto& row : reference["types"]) {
        INFO(row["type"]);
        const auto result = quantiles(x, p, static_cast<QuantileDefinition>(row["type"].get<int>()));
        for (std::size_t k = 0; k < p.size(); ++k) {
            CHECK_THAT(result[k], WithinAbs(row["q"][k], 1e-12));
        }
    }
    const auto& simple = reference["one_to_eleven"];
    for (std::size_t k = 0; k < p.size(); ++k) {
        const std::vector<double> values{11, 1, 10, 2, 9, 3, 8, 4, 7, 5, 6};
        const double probability = simple["p"][k];
        CHECK_THAT(quantile(values, probability), WithinAbs(simple["type7"][k], 1e-12));
        CHECK_THAT(quantile(values, probability, QuantileDefinition::hyndman_fan_6),
                   WithinAbs(simple["type6"][k], 1e-12));
    }
}

// By hand: of 1 2 3 4 at p = 0.5, a step of the distribution function.
TEST_CASE("at a step the first three definitions differ", "[stats][quantile]") {
    const std::vector<double> x{4.0, 2.0, 3.0, 1.0};
    CHECK(quantile(x, 0.5, QuantileDefinition::hyndman_fan_1) == 2.0);
    CHECK(quantile(x, 0.5, QuantileDefinition::hyndman_fan_2) == 2.5);
    CHECK(quantile(x, 0.5, QuantileDefinition::hyndman_fan_3) == 2.0);
    CHECK(quantile(x, 0.375, QuantileDefinition::hyndman_fan_3) == 2.0);  // n p = 1.5: the even one
    CHECK(quantile(x, 0.625, QuantileDefinition::hyndman_fan_3) == 2.0);  // n p = 2.5
}

TEST_CASE("quantiles are symmetric, ordered and within the values", "[stats][quantile]") {
    const int type = GENERATE(2, 5, 6, 7, 8, 9);
    const auto definition = static_cast<QuantileDefinition>(type);
    const std::vector<double> x{2.5, -7.1, 13.9, 4.4, 4.4, 0.3, 8.8};
    std::vector<double> negative = x;
    for (double& value : negative) {
        value = -value;
    }
    double previous = -7.1;
    for (const double p : {0.0, 0.01, 0.2, 0.35, 0.5, 0.77, 0.99, 1.0}) {
        const double q = quantile(x, p, definition);
        CHECK(q >= previous);
        CHECK_THAT(quantile(negative, 1.0 - p, definition), WithinAbs(-q, 1e-12));
        previous = q;
    }
    CHECK(previous == 13.9);
}

TEST_CASE("missing values are skipped and no values give no quantile", "[stats][quantile]") {
    CHECK(quantile(std::vector{missing, 5.0, missing, 1.0}, 0.5) == 3.0);
    CHECK(quantile(std::vector{5.5}, 0.9) == 5.5);
    CHECK(std::isnan(quantile({}, 0.5)));
    CHECK(std::isnan(quantile(std::vector{missing}, 0.0)));
}
