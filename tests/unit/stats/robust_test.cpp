#include <jointrom/stats/robust.hpp>

#include "stats_reference.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference() {
    return reference_json("reference/stats/outliers.json");
}

}  // namespace

// R 4.2.2: median, mad, quantile.
TEST_CASE("robust statistics of a class are the reference ones", "[stats][robust]") {
    const auto expected = reference()["class_list"];
    const std::vector<double> x = expected["x"];
    CHECK(median(x) == expected["median"]);
    CHECK(median_absolute_deviation(x) == expected["mad_raw"]);
    CHECK_THAT(robust_sd(x), WithinRel(expected["mad_scaled"].get<double>(), 1e-12));
    const auto scores = modified_z_scores(x);
    for (std::size_t k = 0; k < x.size(); ++k) {
        CHECK_THAT(scores[k], WithinAbs(expected["modified_z"][k], 1e-12));
    }
    // Plain z scores reach only -2.1 and 2.5: the two wild values hide each other.
    CHECK(find_outliers(x) == std::vector<std::size_t>{7, 11});
    const Fences fences = tukey_fences(x);
    CHECK_THAT(fences.low, WithinAbs(expected["low"], 1e-12));
    CHECK_THAT(fences.high, WithinAbs(expected["high"], 1e-12));
}

// S. Newcomb's passage times of light (Stigler 1977), R 4.2.2.
TEST_CASE("the two known outliers of the passage times of light are found", "[stats][robust]") {
    const auto expected = reference()["passage_times"];
    const std::vector<double> x = expected["x"];
    CHECK(median(x) == expected["median"]);
    CHECK_THAT(robust_sd(x), WithinRel(expected["mad"].get<double>(), 1e-12));
    CHECK(find_outliers(x) == expected["outlier_places"].get<std::vector<std::size_t>>());
}

TEST_CASE("the robust spread of the quantile example is the reference one", "[stats][robust]") {
    const auto expected = reference_json("reference/stats/quantiles.json");
    const std::vector<double> x = expected["x"];
    CHECK_THAT(median(x), WithinRel(expected["median"].get<double>(), 1e-12));
    CHECK_THAT(median_absolute_deviation(x), WithinRel(expected["mad_raw"].get<double>(), 1e-12));
    CHECK_THAT(robust_sd(x), WithinRel(expected["robust_sd"].get<double>(), 1e-12));
}

TEST_CASE("mostly equal values still show the different one", "[stats][robust]") {
    const std::vector<double> x{140.0, 140.0, missing, 140.0, 140.0, 150.0};
    CHECK(median_absolute_deviation(x) == 0.0);
    const auto scores = modified_z_scores(x);
    CHECK(scores[0] == 0.0);
    CHECK(std::isnan(scores[2]));
    CHECK_THAT(scores[5], WithinRel(10.0 / (1.253314 * 2.0), 1e-12));
    CHECK(find_outliers(x) == std::vector<std::size_t>{5});
    CHECK(find_outliers(std::vector<double>(4, 3.5)).empty());
}

TEST_CASE("no values have no robust statistics", "[stats][robust]") {
    CHECK(std::isnan(median({})));
    CHECK(std::isnan(robust_sd(std::vector{missing, missing})));
    CHECK(modified_z_scores({}).empty());
    CHECK(std::isnan(tukey_fences({}).low));
    CHECK(median(std::vector{missing, 4.0, 2.0}) == 3.0);
}
