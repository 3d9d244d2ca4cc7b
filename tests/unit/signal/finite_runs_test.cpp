#include <jointrom/signal/finite_runs.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;
using Spans = std::vector<SampleSpan>;

TEST_CASE("finite runs are the pieces between missing samples", "[signal][finite_runs]") {
    CHECK(finite_runs(std::vector{1.0, missing, 2.0, 3.0, missing, missing, 4.0}) == Spans{{0, 1}, {2, 4}, {6, 7}});
    CHECK(finite_runs(std::vector{missing, 1.5, missing}) == Spans{{1, 2}});
    CHECK(finite_runs(std::vector{2.5, 1.5}) == Spans{{0, 2}});
    CHECK(finite_runs(std::vector{missing, missing}).empty());
    CHECK(finite_runs({}).empty());
    std::vector<double> long_one(300, -1e-300);
    CHECK(finite_runs(long_one) == Spans{{0, 300}});
    long_one[130] = -std::numeric_limits<double>::infinity();
    long_one[131] = std::numeric_limits<double>::max();
    CHECK(finite_runs(long_one) == Spans{{0, 130}, {131, 300}});
}

TEST_CASE("a method is applied to every finite run and gaps stay", "[signal][finite_runs]") {
    const auto reversed = [](std::span<const double> run) { return std::vector<double>(run.rbegin(), run.rend()); };
    const auto result = map_finite_runs(std::vector{missing, 1.0, 2.0, missing, 3.0, 4.0, 5.0, missing}, reversed);
    CHECK(largest_difference(result, {missing, 2.0, 1.0, missing, 5.0, 4.0, 3.0, missing}) == 0.0);
}

TEST_CASE("finite runs are changed where they are and infinities go", "[signal][finite_runs]") {
    const double infinity = std::numeric_limits<double>::infinity();
    std::vector<double> samples{infinity, 1.0, 2.0, missing, 3.0, -infinity};
    change_finite_runs(samples, [](std::span<double> run) { std::ranges::reverse(run); });
    CHECK(largest_difference(samples, {missing, 2.0, 1.0, missing, 3.0, missing}) == 0.0);
}
