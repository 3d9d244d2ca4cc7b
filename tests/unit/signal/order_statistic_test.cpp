#include <jointrom/signal/order_statistic.hpp>

#include "signal_reference.hpp"

#include <iterator>
#include <random>
#include <span>

using namespace jointrom;
using namespace jointrom::test;

namespace {

/// By the plain definition: everything sorted.
double sorted_value(std::span<const double> x, std::size_t rank) {
    std::vector<double> finite;
    std::ranges::copy_if(x, std::back_inserter(finite), [](double v) { return std::isfinite(v); });
    std::ranges::sort(finite);
    return finite[rank];
}

RankedValue ranked(const std::vector<double>& x, double share) {
    return value_of_rank(
        x.size(), [&](std::size_t i) { return x[i]; },
        [=](std::size_t count) { return static_cast<std::size_t>(share * static_cast<double>(count - 1)); });
}

void check_all_ranks(const std::vector<double>& x) {
    const auto count = static_cast<double>(std::ranges::count_if(x, [](double v) { return std::isfinite(v); }));
    for (const double share : {0.0, 0.001, 0.01, 0.25, 0.5, 0.75, 0.99, 0.999, 1.0}) {
        CAPTURE(share, x.size());
        const auto rank = static_cast<std::size_t>(share * (count - 1.0));
        const RankedValue value = ranked(x, share);
        CHECK(value.at == sorted_value(x, rank));
        CHECK(value.before == sorted_value(x, rank == 0 ? 0 : rank - 1));
    }
}

}  // namespace

TEST_CASE("the value of a rank is that of the sorted values", "[signal][order_statistic]") {
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal(180.0, 0.2);
    std::vector<double> noise(70000), steps(70000), ramp(70000);
    for (std::size_t i = 0; i < noise.size(); ++i) {
        noise[i] = i % 97 == 0 ? missing : normal(random);
        steps[i] = std::round(normal(random));  // few different values
        ramp[i] = static_cast<double>(i);
    }
    check_all_ranks(noise);
    check_all_ranks(steps);
    check_all_ranks(ramp);
    check_all_ranks({noise.begin() + 1, noise.begin() + 40});
    check_all_ranks(std::vector<double>(50000, 2.385));
    check_all_ranks({7.25});
}

TEST_CASE("a series that looks different where it is sampled is ranked all the same", "[signal][order_statistic]") {
    std::vector<double> x(90001, 1.0);
    const std::size_t stride = x.size() / 8192 | 1U;  // the bounds are taken from every stride-th value
    for (std::size_t i = 0; i < x.size(); ++i) {
        x[i] = i % stride == 0 ? 1000.0 + static_cast<double>(i) : static_cast<double>(i % 1013);
    }
    check_all_ranks(x);
}

TEST_CASE("without values there is no rank", "[signal][order_statistic]") {
    CHECK(std::isnan(ranked({}, 0.5).at));
    CHECK(std::isnan(ranked(std::vector<double>(40000, missing), 0.5).at));
}

TEST_CASE("every rank of few and of many values is found, whatever their order", "[signal][order_statistic]") {
    std::mt19937_64 random(3);
    for (const std::size_t size : {1U, 2U, 31U, 33U, 100U, 700U}) {
        std::vector<double> rising(size), falling(size), alike(size, 2.385), noise(size), coarse(size), wave(size);
        for (std::size_t i = 0; i < size; ++i) {
            rising[i] = static_cast<double>(i);
            falling[i] = -rising[i];
            noise[i] = static_cast<double>(random() % 1000003);
            coarse[i] = static_cast<double>(random() % 4);
            wave[i] = std::sin(0.07 * rising[i]);
        }
        for (const auto& values : {rising, falling, alike, noise, coarse, wave}) {
            std::vector<double> sorted = values;
            std::ranges::sort(sorted);
            for (std::size_t rank = 0; rank < size; ++rank) {
                std::vector<double> moved = values;
                const RankedValue found = select_rank(moved, rank);
                const double before = rank == 0 ? -std::numeric_limits<double>::infinity() : sorted[rank - 1];
                if (found.at != sorted[rank] || found.before != before) {
                    CAPTURE(size, rank, found.at, found.before, sorted[rank], before);
                    FAIL("differs");
                }
            }
        }
    }
    SUCCEED();
}
