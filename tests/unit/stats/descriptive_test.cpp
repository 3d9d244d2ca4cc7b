#include <jointrom/stats/descriptive.hpp>

#include "stats_reference.hpp"

#include <cmath>

using namespace jointrom;
using namespace jointrom::test;

namespace {

/// The NumAcc sets of NIST StRD: `level` + 0.2 once, then + 0.1 and + 0.3 in turn, 1001 values.
std::vector<double> accuracy_set(double first, double second, double third) {
    std::vector<double> values{first};
    for (int i = 0; i < 500; ++i) {
        values.push_back(second);
        values.push_back(third);
    }
    return values;
}

}  // namespace

// NIST StRD, certified values.
TEST_CASE("means and standard deviations are the certified ones", "[stats][descriptive]") {
    const auto reference = reference_json("reference/stats/nist_univariate.json");
    for (const auto& row : reference["datasets"]) {
        INFO(row["name"]);
        std::vector<double> values;
        if (row.contains("digits")) {
            for (const char digit : row["digits"].get<std::string>()) {
                values.push_back(digit - '0');
            }
        } else {
            values = row["y"].get<std::vector<double>>();
        }
        const Description description = describe(values);
        CHECK_THAT(description.mean, WithinRel(row["mean"].get<double>(), 1e-13));
        // Mavro differs from its certified value by 7.5e-14 already in the decimal data as read.
        CHECK_THAT(description.sd, WithinRel(row["sd"].get<double>(), 1e-13));
    }
}

// NIST StRD: NumAcc1 to NumAcc4. The last two cannot be represented: the data as read have other standard deviations.
TEST_CASE("a small spread on a large mean is not lost", "[stats][descriptive]") {
    const Description first = describe(std::vector{10000001.0, 10000003.0, 10000002.0});
    CHECK(first.mean == 10000002.0);
    CHECK(first.sd == 1.0);
    const Description second = describe(accuracy_set(1.2, 1.1, 1.3));
    CHECK_THAT(second.mean, WithinRel(1.2, 1e-13));
    CHECK_THAT(second.sd, WithinRel(0.1, 1e-13));
    const Description third = describe(accuracy_set(1000000.2, 1000000.1, 1000000.3));
    CHECK_THAT(third.mean, WithinRel(1000000.2, 1e-13));
    CHECK_THAT(third.sd, WithinRel(0.1, 1e-8));
    const Description fourth = describe(accuracy_set(10000000.2, 10000000.1, 10000000.3));
    CHECK_THAT(fourth.mean, WithinRel(10000000.2, 1e-13));
    CHECK_THAT(fourth.sd, WithinRel(0.1, 1e-8));
}

TEST_CASE("missing values are counted and left out", "[stats][descriptive]") {
    const Description description = describe(std::vector{missing, 3.0, -1.5, missing, 6.0, missing});
    CHECK(description.count == 3);
    CHECK(description.missing == 3);
    CHECK_THAT(description.mean, WithinAbs(2.5, 1e-15));
    CHECK_THAT(description.sd, WithinRel(std::sqrt(14.25), 1e-14));  // deviations 0.5, -4, 3.5
    CHECK(description.min == -1.5);
    CHECK(description.max == 6.0);
}

TEST_CASE("what few values cannot give is missing", "[stats][descriptive]") {
    const Description none = describe({});
    CHECK(none.count == 0);
    CHECK(std::isnan(none.mean));
    CHECK(std::isnan(none.min));
    const Description all_missing = describe(std::vector{missing, missing});
    CHECK(all_missing.missing == 2);
    CHECK(std::isnan(all_missing.max));
    const Description one = describe(std::vector{42.5});
    CHECK(one.mean == 42.5);
    CHECK(std::isnan(one.sd));
    CHECK(describe(std::vector<double>(7, 0.1)).sd == 0.0);
}

TEST_CASE("equal values have no spread, although their mean is rounded", "[stats][descriptive]") {
    for (const double value : {0.1, 131.03, -1e-7, 3e12, 1e300}) {
        const Description found = describe(std::vector<double>(3, value));
        CHECK_THAT(found.mean, WithinRel(value, 1e-15));
        CHECK_THAT(found.sd, WithinAbs(0.0, 1e-15 * std::abs(value)));
    }
}
