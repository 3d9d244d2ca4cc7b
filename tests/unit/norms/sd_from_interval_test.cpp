#include "norm_support.hpp"

#include <jointrom/norms/sd_from_interval.hpp>

#include <cmath>

using namespace jointrom;

TEST_CASE("an SD comes back from a confidence interval", "[norms][sd_from_interval]") {
    // Computed with SciPy 1.10.1: n = 25, interval 131 to 135.
    CHECK_THAT(sd_from_interval(131.0, 135.0, 25, IntervalFactor::student).sd, WithinRel(4.84519936489121, 1e-12));
    // sqrt(25) * 2 / 1.959964; with 1.96 it is 5.10204081632653.
    CHECK_THAT(sd_from_interval(131.0, 135.0, 25).sd, WithinAbs(5.10204081632653, 1e-4));
    const SdFromInterval exact = sd_from_interval(131.0, 135.0, 25, IntervalFactor::normal, 0.0);
    CHECK(exact.sd_lo == exact.sd);
    CHECK(exact.sd_hi == exact.sd);
}

TEST_CASE("there is no SD without an interval or with one person", "[norms][sd_from_interval]") {
    CHECK(std::isnan(sd_from_interval(135.0, 131.0, 25).sd));
    CHECK(std::isnan(sd_from_interval(131.0, 135.0, 1).sd));
    CHECK(std::isnan(sd_from_interval(std::nan(""), 135.0, 25).sd_hi));
    CHECK(sd_from_interval(2.0, 2.0, 25).sd == 0.0);
    CHECK(sd_from_interval(2.0, 2.0, 25).sd_lo == 0.0);
}

// Soucie 2011 prints mean, SD and 95 % interval for people of 45 to 69 years: 11 motions, both sexes.
TEST_CASE("all 22 reported SDs of the 45-69 group lie where the intervals put them", "[norms][sd_from_interval]") {
    int cells = 0;
    for (const NormRow& row : built_in_norms().rows()) {
        if (row.source != "soucie2011" || row.age_min_years != 45.0) {
            continue;
        }
        CAPTURE(row.line, row.direction());
        ++cells;
        CHECK(row.sd_basis == SdBasis::reported);
        const SdFromInterval derived = sd_from_interval(row.ci_low_deg, row.ci_high_deg, row.n.value());
        CHECK(row.sd_deg >= derived.sd_lo - 0.05);  // the SD is rounded as well
        CHECK(row.sd_deg <= derived.sd_hi + 0.05);
        CHECK_THAT(row.sd_lo_deg, WithinAbs(derived.sd_lo, 0.051));
        CHECK_THAT(row.sd_hi_deg, WithinAbs(derived.sd_hi, 0.051));
    }
    CHECK(cells == 22);
}

TEST_CASE("every derived SD of the built-in table follows from its interval", "[norms][sd_from_interval]") {
    int rows = 0;
    for (const NormRow& row : built_in_norms().rows()) {
        if (row.sd_basis == SdBasis::derived) {
            ++rows;
            CAPTURE(row.line);
            const SdFromInterval derived = sd_from_interval(row.ci_low_deg, row.ci_high_deg, row.n.value());
            CHECK_THAT(row.sd_deg, WithinAbs(derived.sd, 0.051));
            CHECK_THAT(row.sd_lo_deg, WithinAbs(derived.sd_lo, 0.051));
            CHECK_THAT(row.sd_hi_deg, WithinAbs(derived.sd_hi, 0.051));
        }
    }
    CHECK(rows == 36);
}
