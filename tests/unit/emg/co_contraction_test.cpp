#include <jointrom/emg/co_contraction.hpp>

#include "emg_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

// By hand: areas by the trapezium rule 65 (lower), 85 and 90.
TEST_CASE("co-contraction of a hand-made example", "[emg][co_contraction]") {
    const std::vector<double> a{0.0, 10.0, 20.0, 30.0, 20.0, 10.0};
    const std::vector<double> b{10.0, 10.0, 10.0, 20.0, 40.0, 10.0};
    for (const CoContraction& found : {co_contraction(a, b), co_contraction(b, a)}) {
        CHECK_THAT(found.common_area_pct, WithinRel(200.0 * 65.0 / 175.0, 1e-12));
        CHECK_THAT(found.weighted_ratio, WithinRel((20.0 + 15.0 + 100.0 / 3.0 + 30.0 + 10.0) / 5.0, 1e-12));
        CHECK_THAT(found.mean_of_lower, WithinRel(13.0, 1e-12));
        CHECK_THAT(found.area_ratio, WithinRel(65.0 / 110.0, 1e-12));
    }
}

// NumPy 1.24.2.
TEST_CASE("co-contraction of two envelopes is the reference one", "[emg][co_contraction]") {
    const auto found = co_contraction(reference_column("reference/emg/two_muscles.csv", "agonist"),
                                      reference_column("reference/emg/two_muscles.csv", "antagonist"));
    const auto& expected = reference()["two_muscles"];
    CHECK_THAT(found.common_area_pct, WithinRel(expected["index_common_area_percent_trapz"].get<double>(), 1e-12));
    CHECK_THAT(found.weighted_ratio, WithinRel(expected["rudolph_trapz_unit_time"].get<double>(), 1e-12));
}

TEST_CASE("co-contraction at the ends of its scale", "[emg][co_contraction]") {
    const std::vector<double> one{1.0, 3.0, 2.0};
    const std::vector<double> none(3, 0.0);
    CHECK_THAT(co_contraction(one, one).common_area_pct, WithinAbs(100.0, 1e-12));
    CHECK_THAT(co_contraction(one, none).common_area_pct, WithinAbs(0.0, 1e-12));
    CHECK(std::isnan(co_contraction(none, none).common_area_pct));
    CHECK(std::isnan(co_contraction({}, {}).weighted_ratio));
    CHECK(std::isnan(co_contraction(std::vector<double>{1.0}, std::vector<double>{1.0}).area_ratio));
    const std::vector<double> gap{1.0, missing, 2.0};
    CHECK(std::isnan(co_contraction(gap, one).common_area_pct));
}
