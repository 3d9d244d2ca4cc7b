#include <jointrom/emg/envelope.hpp>

#include "emg_reference.hpp"

#include <jointrom/core/failure.hpp>

#include <numbers>

using namespace jointrom;
using namespace jointrom::test;

// NumPy 1.24.2 and SciPy 1.10.1 (sosfiltfilt, odd padding of 1000 samples) on 3 s of simulated activity at 2000 Hz.
TEST_CASE("the linear envelope is the reference one", "[emg][envelope]") {
    const auto samples = burst_without_offset();
    for (const auto& row : reference()["linear_envelope"]) {
        const auto envelope = linear_envelope(samples, total_cutoff(row["design_hz"]), Hertz(2000.0),
                                              {.rule = EdgeRule::odd_reflection, .pad_samples = 1000});
        for (const auto& at : row["at"]) {
            CAPTURE(row["design_hz"].get<double>(), at[0].get<int>());
            CHECK_THAT(envelope[at[0].get<std::size_t>()], WithinRel(at[1].get<double>(), 1e-9));
        }
    }
}

// Closed form: of |A sin| the mean is 2 A / pi.
TEST_CASE("the envelope of a sine is its mean rectified value", "[emg][envelope]") {
    std::vector<double> samples(4000);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i] = 2.385 * std::sin(2.0 * std::numbers::pi * 80.0 * static_cast<double>(i) / 2000.0);
    }
    const auto envelope = linear_envelope(samples, Hertz(6.0), Hertz(2000.0));
    CHECK_THAT(envelope[2000], WithinRel(2.0 * 2.385 / std::numbers::pi, 2e-3));
    CHECK(std::ranges::min(envelope) >= 0.0);
}

TEST_CASE("missing samples stay missing in an envelope, the others do not", "[emg][envelope]") {
    std::vector<double> samples(300, 1.0);
    samples[0] = samples[100] = samples[299] = missing;
    const auto envelope = linear_envelope(samples, Hertz(6.0), Hertz(100.0));
    CHECK(std::isnan(envelope[0]));
    CHECK(std::isnan(envelope[100]));
    CHECK(std::isnan(envelope[299]));
    CHECK_THAT(envelope[101], WithinAbs(1.0, 1e-12));
    CHECK(linear_envelope({}, Hertz(6.0), Hertz(100.0)).empty());
    CHECK_THROWS_AS(linear_envelope(samples, Hertz(50.0), Hertz(100.0)), Failure);
}

// NumPy 1.24.2.
TEST_CASE("the Teager-Kaiser energy is the reference one", "[emg][envelope]") {
    const auto energy = teager_kaiser_energy(burst_without_offset());
    for (const auto& at : reference()["teager_kaiser"]["psi_at"]) {
        CHECK_THAT(energy[at[0].get<std::size_t>()], WithinRel(at[1].get<double>(), 1e-9));
    }
    CHECK(energy[0] == energy[1]);
    // Closed form: of A sin(w i) it is A^2 sin^2(w) throughout.
    const std::vector<double> sine{0.0, std::sin(0.5), std::sin(1.0), std::sin(1.5)};
    CHECK_THAT(teager_kaiser_energy(sine)[2], WithinAbs(std::sin(0.5) * std::sin(0.5), 1e-12));
    CHECK(std::isnan(teager_kaiser_energy(std::vector<double>{1.0, 2.0})[0]));
    CHECK(teager_kaiser_energy({}).empty());
}
