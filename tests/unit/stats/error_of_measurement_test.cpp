#include <jointrom/stats/error_of_measurement.hpp>

#include "stats_reference.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

// Scores of Shrout and Fleiss 1979; values computed with R 4.2.2: sqrt of mean squares, qchisq for the interval.
TEST_CASE("standard errors of measurement come from the mean squares", "[stats][error_of_measurement]") {
    const auto reference = reference_json("reference/stats/agreement.json")["six_by_four"];
    const TwoWayAnova anova = two_way_anova(score_table(reference["data"]));
    const ErrorOfMeasurement consistency = error_of_consistency(anova);
    CHECK_THAT(consistency.sem, WithinRel(reference["sem_from_mse"].get<double>(), 1e-12));
    CHECK_THAT(consistency.mdc95, WithinRel(reference["mdc95_from_mse"].get<double>(), 1e-12));
    CHECK_THAT(consistency.ci.low, WithinRel(0.745852134100426, 1e-9));
    CHECK_THAT(consistency.ci.high, WithinRel(1.5626657781924, 1e-9));
    CHECK(consistency.dof == 15.0);
    const ErrorOfMeasurement agreement = error_of_agreement(anova);
    CHECK_THAT(agreement.sem, WithinRel(reference["sem_agreement"].get<double>(), 1e-12));
    CHECK(agreement.dof < 15.0);
    CHECK(agreement.ci.high > consistency.ci.high);
    CHECK_THAT(error_within_subjects(anova).sem, WithinRel(std::sqrt(reference["ms_within"].get<double>()), 1e-12));
}

// Computed with R 4.2.2: sd of the differences / sqrt(2).
TEST_CASE("of two trials the error of consistency is the typical error", "[stats][error_of_measurement]") {
    const auto reference = reference_json("reference/stats/agreement.json")["typical_error"];
    const std::vector<double> first = reference["trial1"];
    const std::vector<double> second = reference["trial2"];
    const TwoWayAnova anova = two_way_anova(paired_table(first, second));
    const ErrorOfMeasurement error = error_of_consistency(anova);
    CHECK_THAT(error.sem, WithinRel(reference["typical_error"].get<double>(), 1e-12));
    CHECK_THAT(error.mdc95, WithinRel(reference["mdc95"].get<double>(), 1e-12));
    CHECK(error_of_agreement(anova).sem == error.sem);  // the trials differ by less than chance
}

TEST_CASE("a mean of nothing has no relative error", "[stats][error_of_measurement]") {
    CHECK(std::isnan(error_of_measurement(1.5, 8.0, 0.0).percent_of_mean));
    CHECK_THAT(error_of_measurement(1.5, 8.0, -60.0).percent_of_mean, WithinAbs(2.5, 1e-12));
    const ErrorOfMeasurement none = error_of_consistency(two_way_anova(paired_table({1.0, 2.0}, {1.0, 2.0})));
    CHECK(none.sem == 0.0);
    CHECK(none.ci.high == 0.0);
}
