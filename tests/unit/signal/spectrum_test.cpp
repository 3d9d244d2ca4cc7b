#include <jointrom/signal/spectrum.hpp>

#include "signal_reference.hpp"

#include <signal/fourier.hpp>

#include <random>

using namespace jointrom;
using namespace jointrom::test;

namespace {

nlohmann::json reference(const std::string& key) {
    return reference_json("reference/signal/spectrum.json")[key];
}

/// 0.8 s of synthetic muscle activity sampled at 2000 Hz.
std::vector<double> burst() {
    return reference_column("reference/signal/emg_burst_2000hz.csv", "emg_uV");
}

std::vector<std::complex<double>> plain_fourier(const std::vector<double>& x) {
    std::vector<std::complex<double>> bins(x.size() / 2 + 1);
    for (std::size_t k = 0; k < bins.size(); ++k) {
        for (std::size_t i = 0; i < x.size(); ++i) {
            const double turn = static_cast<double>(i * k % x.size()) / static_cast<double>(x.size());
            bins[k] += x[i] * std::polar(1.0, -2.0 * std::numbers::pi * turn);
        }
    }
    return bins;
}

}  // namespace

// SciPy 1.10.1: welch.
TEST_CASE("Welch's density is the reference one", "[signal][spectrum]") {
    const auto expected = reference("welch_hann256_50");
    const Spectrum density = welch(burst(), Hertz(2000.0));
    const std::vector<double> psd = expected["psd"];
    CHECK(largest_difference(density.values, psd) < 1e-9 * std::ranges::max(psd));
    CHECK_THAT(density.frequency_hz[1], WithinRel(expected["df_hz"].get<double>(), 1e-12));
    for (const std::size_t segment : {256U, 512U}) {
        const auto row = reference("welch_hann" + std::to_string(segment) + "_50");
        const Spectrum spectrum = welch(burst(), Hertz(2000.0), {.segment = segment});
        CHECK_THAT(total_power(spectrum), WithinRel(row["total_power"].get<double>(), 1e-9));
        CHECK_THAT(mean_frequency(spectrum).value(), WithinRel(row["mnf_hz"].get<double>(), 1e-9));
        CHECK_THAT(median_frequency(spectrum).value(), WithinRel(row["mdf_hz_interp"].get<double>(), 1e-9));
        CHECK_THAT(median_frequency(spectrum, MedianFrequency::at_bin).value(),
                   WithinRel(row["mdf_hz_bin"].get<double>(), 1e-12));
    }
}

// Closed form: the median of an exponential distribution, which squared magnitudes of noise have, is ln 2 of its mean.
TEST_CASE("a median over segments is not moved by a loud one", "[signal][spectrum]") {
    std::mt19937 generator(3);
    std::normal_distribution<double> noise;
    std::vector<double> samples(64000);
    std::ranges::generate(samples, [&] { return noise(generator); });
    const auto total_of_medians = [](const SegmentDensities& densities) {
        Spectrum medians = densities.mean();
        for (std::size_t k = 0; k < medians.values.size(); ++k) {
            medians.values[k] = densities.median(k);
        }
        return total_power(medians);
    };
    const auto quiet = welch_segments(samples, Hertz(1000.0), {.segment = 64});
    const double power = total_power(quiet.mean());
    CHECK_THAT(total_power(welch(samples, Hertz(1000.0), {.segment = 64})), WithinRel(power, 1e-12));
    CHECK_THAT(total_of_medians(quiet) / power, WithinAbs(std::log(2.0), 0.02));
    std::fill_n(samples.begin() + 1000, 64, 1000.0);
    samples[1001] = -1000.0;
    const auto loud = welch_segments(samples, Hertz(1000.0), {.segment = 64});
    CHECK_THAT(total_of_medians(loud) / power, WithinAbs(std::log(2.0), 0.02));
    CHECK(total_power(loud.mean()) > 10.0 * power);
    CHECK(welch_segments({}, Hertz(1000.0)).mean().values.empty());
}

TEST_CASE("segments of a long signal can be few and spread", "[signal][spectrum]") {
    std::vector<double> samples(10000);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] = std::sin(0.5 * static_cast<double>(i)) * (i < 5000 ? 1.0 : 3.0);
    }
    const double all = total_power(welch(samples, Hertz(100.0), {.segment = 50}));
    const double some = total_power(welch(samples, Hertz(100.0), {.segment = 50, .most_segments = 20}));
    const double first = total_power(welch(samples, Hertz(100.0), {.segment = 50, .most_segments = 1}));
    CHECK_THAT(some, WithinRel(all, 0.1));
    CHECK_THAT(first, WithinRel(all / 5.0, 0.1));  // a mean of 1 and 9 without the 9
}

// SciPy 1.10.1: periodogram; Parseval's theorem.
TEST_CASE("the periodogram sums to the variance", "[signal][spectrum]") {
    const auto expected = reference("periodogram_boxcar");
    const Spectrum spectrum = periodogram(burst(), Hertz(2000.0));
    CHECK_THAT(total_power(spectrum), WithinRel(expected["population_variance"].get<double>(), 1e-9));
    CHECK_THAT(mean_frequency(spectrum).value(), WithinRel(expected["mnf_hz"].get<double>(), 1e-9));
    CHECK_THAT(median_frequency(spectrum).value(), WithinRel(expected["mdf_hz_interp"].get<double>(), 1e-9));
}

// Closed form: powers 0.5, 2, 0.5 at 50, 100, 200 Hz.
TEST_CASE("three tones have the mean and median frequency by hand", "[signal][spectrum]") {
    auto tones = sine(1.0, 50.0, 1000.0, 1000);
    const auto second = sine(2.0, 100.0, 1000.0, 1000);
    const auto third = sine(1.0, 200.0, 1000.0, 1000);
    for (std::size_t i = 0; i < tones.size(); ++i) {
        tones[i] += second[i] + third[i];
    }
    const Spectrum spectrum = periodogram(tones, Hertz(1000.0));
    CHECK_THAT(total_power(spectrum), WithinRel(3.0, 1e-12));
    CHECK_THAT(mean_frequency(spectrum).value(), WithinRel(325.0 / 3.0, 1e-12));
    CHECK_THAT(median_frequency(spectrum, MedianFrequency::at_bin).value(), WithinAbs(100.0, 1e-12));
}

// numpy.fft 1.24.2 for the listed lengths; the definition, summed, for others.
TEST_CASE("Fourier transforms of any length are right", "[signal][spectrum]") {
    for (const auto& row : reference("fourier")) {
        const std::vector<double> x = row["x"];
        const auto bins = real_fourier(x);
        REQUIRE(bins.size() == x.size() / 2 + 1);
        for (std::size_t k = 0; k < bins.size(); ++k) {
            CHECK_THAT(bins[k].real(), WithinAbs(row["re"][k], 1e-12));
            CHECK_THAT(bins[k].imag(), WithinAbs(row["im"][k], 1e-12));
        }
    }
    std::mt19937 generator(7);
    std::uniform_real_distribution<double> level(-5.0, 5.0);
    for (const std::size_t count : {1U, 2U, 3U, 5U, 37U, 74U, 101U, 211U, 480U, 997U}) {
        std::vector<double> x(count);
        for (double& value : x) {
            value = level(generator);
        }
        const auto bins = real_fourier(x);
        const auto expected = plain_fourier(x);
        REQUIRE(bins.size() == expected.size());
        double worst = 0.0;
        for (std::size_t k = 0; k < bins.size(); ++k) {
            worst = std::max(worst, std::abs(bins[k] - expected[k]));
        }
        INFO(count);
        CHECK(worst < 1e-10);
    }
}

TEST_CASE("a zero-padded magnitude spectrum is finer but the same", "[signal][spectrum]") {
    const std::vector<double> x{1.0, 4.0, -2.0, 0.5};
    const Spectrum plain = magnitude_spectrum(x, Hertz(8.0), 4);
    const Spectrum padded = magnitude_spectrum(x, Hertz(8.0), 16);
    REQUIRE(plain.values.size() == 3);
    REQUIRE(padded.values.size() == 9);
    CHECK_THAT(plain.values[0], WithinAbs(3.5, 1e-12));  // sum
    CHECK_THAT(plain.values[2], WithinAbs(5.5, 1e-12));  // alternating sum, -5.5
    CHECK(padded.frequency_hz.back() == 4.0);
    for (std::size_t k = 0; k < 3; ++k) {
        CHECK_THAT(padded.values[4 * k], WithinAbs(plain.values[k], 1e-12));
    }
}

TEST_CASE("short, constant and empty signals have a spectrum without frequency", "[signal][spectrum]") {
    CHECK(welch({}, Hertz(100.0)).values.empty());
    CHECK(magnitude_spectrum({}, Hertz(100.0), 0).values.empty());
    const Spectrum constant = welch(std::vector<double>(40, 7.5), Hertz(100.0));
    CHECK(constant.values.size() == 21);
    CHECK(total_power(constant) == 0.0);
    CHECK_FALSE(mean_frequency(constant).is_set());
    CHECK_FALSE(median_frequency(constant).is_set());
    CHECK_FALSE(median_frequency(periodogram(std::vector{3.0}, Hertz(100.0))).is_set());
}

TEST_CASE("a long recording of awkward length is transformed in reasonable time", "[signal][spectrum]") {
    const auto x = sine(1.0, 90.0, 1000.0, 200003);  // a prime number
    const Spectrum spectrum = periodogram(x, Hertz(1000.0));
    CHECK_THAT(mean_frequency(spectrum).value(), WithinAbs(90.0, 0.1));
}
