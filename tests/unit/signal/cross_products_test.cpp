#include <jointrom/signal/cross_products.hpp>

#include "signal_reference.hpp"

#include <array>
#include <random>
#include <span>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::vector<double> random_samples(std::size_t count, unsigned seed) {
    std::mt19937 generator(seed);
    std::normal_distribution<double> level;
    std::vector<double> samples(count);
    std::ranges::generate(samples, [&] { return level(generator); });
    return samples;
}

/// The definition, summed.
std::vector<double> summed(const std::vector<double>& x, const std::vector<double>& y, std::size_t most) {
    std::vector<double> sums(2 * most + 1);
    for (std::size_t k = 0; k < sums.size(); ++k) {
        for (std::size_t i = 0; i < x.size(); ++i) {
            const std::size_t j = i + k - most;  // before the first sample it wraps around to a very large place
            sums[k] += j < y.size() ? x[i] * y[j] : 0.0;
        }
    }
    return sums;
}

std::vector<double> products_of(const std::vector<double>& x, const std::vector<double>& y, std::size_t most) {
    const std::array<std::span<const double>, 1> only{y};
    return cross_products(x, only, most).front();
}

}  // namespace

// By hand: 1*10 + 2*20 + 3*30 at no lag, 1*20 + 2*30 one later, 2*10 + 3*20 one earlier.
TEST_CASE("products of shifted signals are summed over what both have", "[signal][cross_products]") {
    const auto products = products_of(std::vector{1.0, 2.0, 3.0}, std::vector{10.0, 20.0, 30.0}, 1);
    REQUIRE(products.size() == 3);
    CHECK_THAT(products[0], WithinAbs(80.0, 1e-12));
    CHECK_THAT(products[1], WithinAbs(140.0, 1e-12));
    CHECK_THAT(products[2], WithinAbs(80.0, 1e-12));
    CHECK(products_of({}, {}, 0) == std::vector{0.0});
}

TEST_CASE("blocks of a signal add up to the whole", "[signal][cross_products]") {
    struct Case {
        std::size_t count, most;
    };
    for (const auto [count, most] : {Case{1, 0}, Case{2, 1}, Case{5, 2}, Case{255, 127}, Case{256, 0}, Case{256, 3},
                                     Case{257, 5}, Case{1000, 40}, Case{3000, 100}, Case{3001, 1500}}) {
        INFO(count << " samples, lags up to " << most);
        const auto x = random_samples(count, 1);
        const auto y = random_samples(count, 2);
        CHECK(largest_difference(products_of(x, y, most), summed(x, y, most)) < 1e-10);
    }
}

TEST_CASE("several signals beside one do not get into each other's way", "[signal][cross_products]") {
    const auto x = random_samples(700, 1);
    const auto y = random_samples(700, 2);
    const std::array<std::span<const double>, 3> others{y, x, y};
    const auto products = cross_products(x, others, 60);
    REQUIRE(products.size() == 3);
    CHECK(largest_difference(products[0], summed(x, y, 60)) < 1e-10);
    CHECK(largest_difference(products[1], summed(x, x, 60)) < 1e-10);
    CHECK(products[2] == products[0]);
}
