#include "norm_support.hpp"

#include <jointrom/norms/norm_band.hpp>

#include <cmath>

using namespace jointrom;
using test::built_in_row;

TEST_CASE("the normal range is for people and much wider than the interval of the mean", "[norms][norm_band]") {
    const NormRow& row = built_in_row("soucie2011", "elbow", "flexion", Sex::male);
    const NormBand band = normal_band(row).value();
    // 144.6 +- 1.96 * 5.4: about 134 to 155, where the interval is 143.6 to 145.6.
    CHECK_THAT(band.lower_deg, WithinAbs(134.016, 0.001));
    CHECK_THAT(band.upper_deg, WithinAbs(155.184, 0.001));
    CHECK(band.coverage_pct == 95.0);
    CHECK(band.basis == BandBasis::mean_and_sd);
    const NormStanding place = standing(row, 134.016).value();
    CHECK_THAT(place.z, WithinAbs(-1.96, 1e-3));
    CHECK_THAT(place.percentile_low, WithinAbs(2.5, 1e-3));
    CHECK(place.percentile_low == place.percentile_high);
}

TEST_CASE("a median with percentiles gives a range of 90 percent", "[norms][norm_band]") {
    const NamedPart arc = motion_part("shoulder", "rotation");
    const auto found = find_norms(built_in_norms(), {.motion = arc.motion,
                                                     .part = arc.part,
                                                     .sex = Sex::male,
                                                     .age_years = 19.0,
                                                     .mode = MotionMode::active,
                                                     .source = "vairo2012"});
    REQUIRE(found.matches.size() == 2);  // either arm
    // Vairo 2012, table 4, dominant arm: median 154, 5th and 95th percentile 125 and 180.
    const NormRow& row = *found.matches.front().row;
    const NormBand band = normal_band(row).value();
    CHECK(band.lower_deg == 125.0);
    CHECK(band.upper_deg == 180.0);
    CHECK(band.coverage_pct == 90.0);
    CHECK(band.basis == BandBasis::percentiles);
    CHECK(std::isnan(standing(row, 140.0)->z));
    CHECK(standing(row, 140.0)->percentile_low == 5.0);
    CHECK(standing(row, 140.0)->percentile_high == 50.0);
    CHECK(standing(row, 100.0)->percentile_high == 5.0);
    CHECK(standing(row, 100.0)->percentile_low == 0.0);
}

TEST_CASE("a skewed group is described by what was seen and not by its SD", "[norms][norm_band]") {
    // Soucie 2011, knee extension, men of 45 to 69 years: -4, 0, 0, 0.5, 8; n 96; mean 0.5, SD 1.9.
    const NormRow& row = built_in_row("soucie2011", "knee", "extension", Sex::male, 50.0);
    REQUIRE(row.is_skewed);
    const NormBand band = normal_band(row).value();
    CHECK(band.lower_deg == -4.0);
    CHECK(band.upper_deg == 8.0);
    CHECK(band.basis == BandBasis::extremes);
    CHECK_THAT(band.coverage_pct, WithinAbs(100.0 * 95.0 / 97.0, 1e-12));
    const NormStanding at_zero = standing(row, 0.0).value();
    CHECK(std::isnan(at_zero.z));
    CHECK(at_zero.percentile_low == 25.0);
    CHECK(at_zero.percentile_high == 50.0);
    CHECK(standing(row, -5.0)->percentile_high == 0.0);
    CHECK(standing(row, 9.0)->percentile_low == 100.0);
    CHECK(standing(row, 0.2)->percentile_low == 50.0);
    CHECK(standing(row, 0.2)->percentile_high == 75.0);
}

TEST_CASE("skewed rows without percentiles and single numbers have no range", "[norms][norm_band]") {
    const NormRow& skewed = built_in_row("soucie2011", "knee", "extension", Sex::female, 30.0);
    REQUIRE(skewed.is_skewed);
    REQUIRE(skewed.sd_deg > 0.0);
    CHECK_FALSE(normal_band(skewed));
    CHECK_FALSE(standing(skewed, 0.0));
    CHECK_FALSE(normal_band(built_in_row("aaos", "elbow", "flexion")));
    CHECK_FALSE(standing(built_in_row("aaos", "elbow", "flexion"), 141.0));
    CHECK_FALSE(standing(built_in_row("soucie2011", "elbow", "flexion", Sex::male), std::nan("")));
}

TEST_CASE("percentiles too close together or extremes of few people make no range", "[norms][norm_band]") {
    const NormTable table =
        test::table_of("source,joint,motion,kind,value_deg,n,min_deg,p2_5_deg,p10_deg,p25_deg,p75_deg,p90_deg,"
                       "p97_5_deg,max_deg\n"
                       "quartiles,elbow,flexion,median,141,39,120,,,135,146,,,160\n"
                       "deciles,elbow,flexion,median,141,12,120,,130,135,146,152,,160\n"
                       "both,elbow,flexion,median,141,12,120,124,130,135,146,152,156,160\n");
    CHECK_FALSE(normal_band(table.rows()[0]));
    CHECK(normal_band(table.rows()[1])->coverage_pct == 80.0);
    CHECK(normal_band(table.rows()[2])->coverage_pct == 95.0);
    CHECK(normal_band(table.rows()[2])->lower_deg == 124.0);
}
