#include <jointrom/stats/subject_means.hpp>

#include "stats_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

TEST_CASE("subjects have the means of their own values", "[stats][subject_means]") {
    SubjectMeans means(10);
    const std::vector<double> values{3.0, 10.5, missing, 5.0, -2.0, 4.0, missing};
    const std::vector<std::uint32_t> subjects{7, 2, 2, 7, 0, 7, 9};
    for (int use = 0; use < 2; ++use) {  // the workspace is clean again
        const SubjectMeanList found = means.of(values, subjects);
        REQUIRE(found.means.size() == 3);
        CHECK(found.means[0].subject == 0);
        CHECK(found.means[1].mean == 10.5);
        CHECK(found.means[2].subject == 7);
        CHECK(found.means[2].count == 3);
        CHECK(found.means[2].mean == 4.0);
        CHECK(found.within_dof == 2);
        CHECK_THAT(found.within_squares, WithinAbs(2.0, 1e-14));
    }
    CHECK(means.of({}, {}).means.empty());
}

TEST_CASE("subject means do not depend on the order of the values", "[stats][subject_means]") {
    SubjectMeans means(1);
    const std::vector<double> forward{0.1, 0.2, 0.3, 1e6, 0.7};
    const std::vector<double> backward{0.7, 1e6, 0.3, 0.2, 0.1};
    const std::vector<std::uint32_t> subject(5, 0);
    const SubjectMeanList first = means.of(forward, subject);
    const SubjectMeanList second = means.of(backward, subject);
    CHECK(first.means[0].mean == second.means[0].mean);
    CHECK(first.within_squares == second.within_squares);
}
