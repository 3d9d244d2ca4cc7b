#include <jointrom/emg/bursts.hpp>

#include "emg_reference.hpp"

#include <jointrom/emg/envelope.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

std::size_t samples(double window_ms) {
    return static_cast<std::size_t>(std::lround(window_ms * 2.0));
}

}  // namespace

// NumPy 1.24.2 and SciPy 1.10.1; cut-offs, thresholds and windows of Hodges and Bui 1996. True onset: sample 2000.
TEST_CASE("onsets are the reference ones over the whole grid of settings", "[emg][bursts]") {
    const auto rectified_samples = rectified(burst_without_offset());
    for (const auto& row : reference()["onset_threshold"]) {
        const auto envelope = smoothed(rectified_samples, row[0]);
        const double threshold = baseline_of(envelope, {0, 1000}).value().threshold(row[1]);
        CAPTURE(row[0].get<double>(), row[1].get<double>(), row[2].get<double>());
        CHECK_THAT(threshold, WithinRel(row[3].get<double>(), 1e-9));
        const auto expect = [&](const nlohmann::json& expected, Confirmation confirmation) {
            const auto onset = find_onset(envelope, threshold, samples(row[2]), 1000, confirmation);
            CHECK(onset.has_value() != expected.is_null());
            CHECK(onset.value_or(0) == (expected.is_null() ? 0 : expected.get<std::size_t>()));
        };
        expect(row[4], Confirmation::mean_of_window);
        expect(row[5], Confirmation::every_sample);
    }
}

// NumPy 1.24.2 and SciPy 1.10.1: 50 Hz low-pass over the energy.
TEST_CASE("onsets in the Teager-Kaiser energy are the reference ones", "[emg][bursts]") {
    const auto energy = smoothed(teager_kaiser_energy(burst_without_offset()), 50.0);
    for (const auto& row : reference()["teager_kaiser"]["rows"]) {
        const double threshold = baseline_of(energy, {0, 1000}).value().threshold(row[0]);
        CAPTURE(row[0].get<double>(), row[1].get<double>());
        CHECK_THAT(threshold, WithinRel(row[2].get<double>(), 1e-9));
        CHECK(find_onset(energy, threshold, samples(row[1]), 1000, Confirmation::every_sample) ==
              row[3].get<std::size_t>());
    }
}

// NumPy 1.24.2: gaps shorter than 50 ms closed, then bursts shorter than 50 ms dropped.
TEST_CASE("a flicker at rest is no burst", "[emg][bursts]") {
    const auto envelope = smoothed(rectified(burst_without_offset()), 50.0);
    const double threshold = baseline_of(envelope, {0, 1000}).value().threshold(3.0);
    const auto expected = reference()["burst_merging"]["merged"][0];
    CHECK(cleaned_bursts({{0, 6}, {1988, 3612}}, 100, 100) ==
          std::vector<SampleSpan>{{expected[0].get<std::size_t>(), expected[1].get<std::size_t>()}});
    const auto bursts = active_bursts(envelope, Hertz(2000.0), threshold);
    REQUIRE(bursts.size() == 1);
    CHECK(bursts[0].first == 1988);
    CHECK(bursts[0].last == 3612);
}

TEST_CASE("noise above the threshold just before a burst is no part of it", "[emg][bursts]") {
    std::vector<double> envelope(100, 0.0);
    std::fill(envelope.begin() + 50, envelope.begin() + 70, 20.0);
    envelope[47] = 1.5;
    const BurstOptions options{.window = Seconds(0.05), .min_gap = Seconds(0.02), .min_burst = Seconds(0.05)};
    CHECK(active_bursts(envelope, Hertz(100.0), 1.0, options) == std::vector<SampleSpan>{{50, 70}});
    CHECK(find_onset(envelope, 1.0, 5) == 47U);
}

TEST_CASE("bursts are joined before they are dropped", "[emg][bursts]") {
    CHECK(cleaned_bursts({{0, 3}, {5, 8}, {20, 23}}, 4, 5) == std::vector<SampleSpan>{{0, 8}});
    CHECK(cleaned_bursts({}, 4, 5).empty());
}

TEST_CASE("bursts end at missing samples and at the end", "[emg][bursts]") {
    std::vector<double> envelope(100, 5.0);
    std::fill_n(envelope.begin(), 10, 0.0);
    envelope[50] = missing;
    const BurstOptions options{.window = Seconds(0.03), .min_gap = Seconds(0.01), .min_burst = Seconds(0.05)};
    CHECK(active_bursts(envelope, Hertz(100.0), 1.0, options) == std::vector<SampleSpan>{{10, 50}, {51, 100}});
    CHECK(active_bursts({}, Hertz(100.0), 1.0).empty());
    CHECK(active_bursts(std::vector<double>(50, missing), Hertz(100.0), 1.0).empty());
    CHECK(active_bursts(std::vector<double>{2.0}, Hertz(100.0), 1.0, options).empty());
    CHECK_FALSE(find_onset(std::vector<double>(50, missing), 1.0, 5));
    CHECK_FALSE(baseline_of(envelope, {50, 52}));
}
