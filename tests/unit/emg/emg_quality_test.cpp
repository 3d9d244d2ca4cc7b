#include <jointrom/emg/emg_quality.hpp>

#include "emg_reference.hpp"
#include "simulated_emg.hpp"

#include <jointrom/emg/envelope.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

Channel channel_of(std::vector<double> samples, double rate_hz) {
    const std::size_t count = samples.size();
    return {.name = "Biceps",
            .unit = "mV",
            .column = 3,
            .role = ChannelRole::emg,
            .times = TimeBase::regular(Seconds(0.0), Hertz(rate_hz), count),
            .samples = std::move(samples)};
}

std::optional<MainsHum> hum_in(const std::vector<double>& samples, Hertz rate) {
    return find_mains_hum(densities_of_seconds(samples, rate), rate);
}

Findings findings_of(const std::vector<double>& samples, double rate_hz) {
    const Hertz rate(rate_hz);
    return emg_findings(channel_of(samples, rate_hz), emg_form_of(samples, rate), hum_in(samples, rate),
                        densities_of_seconds(samples, rate).mean());
}

std::vector<double> limited(std::vector<double> samples, double limit) {
    for (double& sample : samples) {
        sample = std::clamp(sample, -limit, limit);
    }
    return samples;
}

/// Short pulses at an even rate, as the heart gives them near the trunk.
std::vector<double> plus_beats(std::vector<double> samples, double rate_hz, double per_min, double height) {
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double beat = 60.0 / per_min;
        const double since_s = std::fmod(static_cast<double>(i) / rate_hz, beat) - 0.3;
        samples[i] += height * std::exp(-since_s * since_s / (2.0 * 0.012 * 0.012));
    }
    return samples;
}

}  // namespace

// Closed form: |f - fs round(f / fs)|, computed with NumPy 1.24.2.
TEST_CASE("hum shows where sampling folds it to", "[emg][mains_hum]") {
    for (const auto& row : reference()["alias"]) {
        CHECK_THAT(alias_of(Hertz(row[1]), Hertz(row[0])).value(), WithinAbs(row[2].get<double>(), 1e-12));
    }
}

TEST_CASE("hum is found where it is, and not where it is not", "[emg][mains_hum]") {
    struct Row {
        double rate_hz;
        double hum_hz;
        double seen_hz;  ///< 0: not at all
    };
    const auto row = GENERATE(values<Row>({{1000.0, 50.0, 50.0},
                                           {1000.0, 60.0, 60.0},
                                           {2000.0, 50.0, 50.0},
                                           {200.0, 60.0, 60.0},
                                           {100.0, 60.0, 40.0},
                                           {100.0, 50.0, 0.0},
                                           {1000.0, 73.0, 0.0}}));
    CAPTURE(row.rate_hz, row.hum_hz);
    const auto samples = simulated_emg(12.0, row.rate_hz, 0.2, 0.005);
    CHECK_FALSE(hum_in(samples, Hertz(row.rate_hz)));
    const auto hum = hum_in(plus_sine(samples, row.rate_hz, row.hum_hz, 0.1), Hertz(row.rate_hz));
    CHECK(hum.has_value() == (row.seen_hz > 0.0));
    if (hum) {
        CHECK(hum->mains == Hertz(row.hum_hz));
        REQUIRE(hum->lines.size() == 1);
        CHECK_THAT(hum->lines[0].value(), WithinAbs(row.seen_hz, 1e-9));
        CHECK(hum->share > 0.05);
    }
}

TEST_CASE("too little to look for hum in", "[emg][mains_hum]") {
    CHECK_FALSE(hum_in({}, Hertz(1000.0)));
    CHECK_FALSE(hum_in(std::vector<double>{1.0}, Hertz(1000.0)));
    CHECK_FALSE(hum_in(std::vector<double>(5000, 1.0), Hertz(1000.0)));
    CHECK_FALSE(hum_in(std::vector<double>(5000, missing), Hertz(1000.0)));
    CHECK_FALSE(hum_in(std::vector<double>(50, 1.0), Hertz(2.0)));
}

TEST_CASE("the form of an electromyogram is recognised", "[emg][emg_form]") {
    const double rate_hz = GENERATE(100.0, 200.0, 1000.0, 2000.0);
    CAPTURE(rate_hz);
    const Hertz rate(rate_hz);
    const auto samples = simulated_emg(8.0, rate_hz, 0.2, 0.005);
    std::vector<double> lifted = samples;
    for (double& sample : lifted) {
        sample += 2.5;  // an amplifier that puts rest at the middle of 0 to 5 V
    }
    CHECK(emg_form_of(samples, rate) == EmgForm::raw);
    CHECK(emg_form_of(lifted, rate) == EmgForm::raw);
    CHECK(emg_form_of(rectified(samples), rate) == EmgForm::rectified);
    CHECK(emg_form_of(linear_envelope(samples, Hertz(4.0), rate), rate) == EmgForm::envelope);
    CHECK(emg_form_of({}, rate) == EmgForm::raw);
    CHECK(emg_form_of(std::vector<double>(500, 1.0), rate) == EmgForm::raw);
    CHECK(emg_form_of(std::vector<double>(500, missing), rate) == EmgForm::raw);
}

TEST_CASE("a good electromyogram gives no findings", "[emg][emg_quality]") {
    const double rate_hz = GENERATE(1000.0, 2000.0);
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        CAPTURE(rate_hz, seed);
        CHECK(findings_of(simulated_emg(10.0, rate_hz, 0.3, 0.004, seed), rate_hz).empty());
    }
    auto coarse = simulated_emg(10.0, rate_hz, 0.05, 0.004);
    for (double& sample : coarse) {
        sample = 0.01 * std::round(sample / 0.01);
    }
    CHECK_FALSE(contains(findings_of(coarse, rate_hz), "emg-clipped"));
}

TEST_CASE("what is wrong with an electromyogram is named", "[emg][emg_quality]") {
    const double rate_hz = 1000.0;
    const auto good = simulated_emg(12.0, rate_hz, 0.3, 0.004);
    CHECK(contains(findings_of(limited(good, 0.6), rate_hz), "emg-clipped"));
    CHECK(contains(findings_of(plus_sine(good, rate_hz, 50.0, 0.1), rate_hz), "mains-hum"));
    CHECK(contains(findings_of(plus_sine(simulated_emg(12.0, rate_hz, 0.01, 0.01), rate_hz, 50.0, 0.2), rate_hz),
                   "emg-unplugged"));
    CHECK(contains(findings_of(plus_sine(good, rate_hz, 1.3, 0.6), rate_hz), "emg-motion-artefact"));
    const auto quiet = simulated_emg(12.0, rate_hz, 0.01, 0.01);
    CHECK(contains(findings_of(plus_beats(quiet, rate_hz, 72.0, 0.3), rate_hz), "emg-ecg"));
    const auto beats = find_heart_beats(plus_beats(quiet, rate_hz, 72.0, 0.3), Hertz(rate_hz)).value();
    CHECK_THAT(beats.per_min, WithinAbs(72.0, 1.0));
}

TEST_CASE("a slow logger is told what it cannot know", "[emg][emg_quality]") {
    const auto findings = findings_of(simulated_emg(12.0, 100.0, 0.3, 0.004), 100.0);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].code() == "emg-undersampled");
    CHECK_THAT(findings[0].text, ContainsSubstring("60 Hz mains at 40 Hz"));
}

TEST_CASE("a logger of 1000 Hz whose clock is a little slow is fast enough", "[emg][emg_quality]") {
    CHECK(findings_of(simulated_emg(12.0, 999.6, 0.3, 0.004), 999.6).empty());
    CHECK(contains(findings_of(simulated_emg(12.0, 980.0, 0.3, 0.004), 980.0), "emg-undersampled"));
}

TEST_CASE("limits of the checks of an electromyogram", "[emg][emg_quality]") {
    for (const std::vector<double>& samples : {std::vector<double>{}, std::vector<double>{1.0},
                                               std::vector<double>(3000, 0.5), std::vector<double>(3000, missing)}) {
        CHECK_FALSE(find_clipping(samples));
        CHECK_FALSE(find_heart_beats(samples, Hertz(1000.0)));
        CHECK(findings_of(samples, 1000.0).empty());
    }
}
