#include <jointrom/figure/decimation.hpp>

#include <support/catch.hpp>
#include <support/made_trace.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace jointrom;

namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// A noisy wave with spikes and gaps: at the start, at the end, short ones and long ones.
std::vector<double> wave_with_gaps(std::size_t n, std::uint64_t seed) {
    test::Noise noise(seed);
    std::vector<double> samples;
    for (std::size_t i = 0; i < n; ++i) {
        samples.push_back(60.0 * std::sin(static_cast<double>(i) * 0.01) + noise() + (i % 977 == 0 ? 90.0 : 0.0));
        const bool is_gap = i < 40 || i + 25 > n || (i > n / 3 && i < n / 3 + n / 8) || i % 211 < 3;
        if (is_gap) {
            samples.back() = missing;
        }
    }
    return samples;
}

struct Extremes {
    double low = std::numeric_limits<double>::infinity();
    double high = -std::numeric_limits<double>::infinity();
    void add(double value) {
        if (std::isfinite(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    }
};

}  // namespace

TEST_CASE("A long line keeps first, last, least and greatest of every column of pixels", "[figure][decimation]") {
    for (const std::size_t n : {2900U, 10000U, 123457U}) {
        for (const std::size_t columns : {7U, 640U, 701U}) {
            INFO(n << " samples in " << columns << " columns");
            const std::vector<double> samples = wave_with_gaps(n, n);
            const std::vector<std::size_t> kept = drawn_samples(samples, columns);
            CHECK(std::ranges::is_sorted(kept));
            CHECK(std::ranges::adjacent_find(kept) == kept.end());
            REQUIRE((n <= 4 * columns || kept.size() <= 5 * columns));
            for (std::size_t k = 0; k < columns; ++k) {
                const std::size_t from = k * n / columns;
                const std::size_t to = (k + 1) * n / columns;
                Extremes all;
                Extremes drawn;
                for (std::size_t i = from; i < to; ++i) {
                    all.add(samples[i]);
                }
                for (auto at = std::ranges::lower_bound(kept, from); at != kept.end() && *at < to; ++at) {
                    drawn.add(samples[*at]);
                }
                REQUIRE(drawn.low == all.low);
                REQUIRE(drawn.high == all.high);
            }
        }
    }
}

TEST_CASE("A line breaks at gaps that can be seen and only there", "[figure][decimation]") {
    std::vector<double> samples(10000, 1.0);
    std::fill(samples.begin() + 3000, samples.begin() + 3150, missing);  // more than a column of 100
    std::fill(samples.begin() + 7010, samples.begin() + 7020, missing);  // less
    const std::vector<std::size_t> kept = drawn_samples(samples, 100);
    CHECK(std::ranges::count_if(kept, [&](std::size_t i) { return std::isnan(samples[i]); }) == 1);

    const std::vector<double> few{missing, 1.0, missing, missing, 2.0, 3.0};
    CHECK(drawn_samples(few, 100) == std::vector<std::size_t>{1, 2, 4, 5});
    CHECK(drawn_samples(std::vector<double>{}, 100).empty());
    CHECK(drawn_samples(std::vector<double>(5000, missing), 100).empty());
    CHECK(drawn_samples(std::vector<double>(5000, missing), 5000).empty());
    CHECK(drawn_samples(std::vector<double>{4.5}, 1) == std::vector<std::size_t>{0});
}

TEST_CASE("Every point left out of a curve lies near one that is drawn", "[figure][decimation]") {
    std::vector<double> x;
    std::vector<double> y;
    for (int i = 0; i < 5000; ++i) {
        x.push_back(200.0 + 180.0 * std::cos(i * 0.001));
        y.push_back(i > 2000 && i < 2100 ? missing : 200.0 + 150.0 * std::sin(i * 0.001));
    }
    const std::vector<std::size_t> kept = drawn_points(x, y, 0.5);
    CHECK(kept.size() < 4500);
    CHECK(kept.front() == 0);
    CHECK(kept.back() == 4999);
    CHECK(std::ranges::count_if(kept, [&](std::size_t i) { return std::isnan(y[i]); }) == 1);
    for (std::size_t i = 0; i < x.size(); ++i) {
        const auto after = std::ranges::upper_bound(kept, i);
        const std::size_t before = *(after - 1);
        if (std::isfinite(y[i])) {
            REQUIRE(std::hypot(x[i] - x[before], y[i] - y[before]) <= 0.5);
        }
    }
}
