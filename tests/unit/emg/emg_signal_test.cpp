#include <jointrom/emg/emg_signal.hpp>

#include "emg_reference.hpp"
#include "simulated_emg.hpp"

#include <jointrom/core/failure.hpp>
#include <jointrom/emg/envelope.hpp>
#include <jointrom/signal/moving_window.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

Channel channel_of(std::vector<double> samples, TimeBase times) {
    return {.name = "Biceps",
            .unit = "mV",
            .column = 3,
            .role = ChannelRole::emg,
            .times = std::move(times),
            .samples = std::move(samples)};
}

Channel channel_of(std::vector<double> samples, double rate_hz) {
    const std::size_t count = samples.size();
    return channel_of(std::move(samples), TimeBase::regular(Seconds(1.5), Hertz(rate_hz), count));
}

double rms(std::span<const double> samples) {
    double sum = 0.0;
    for (const double x : samples) {
        sum += x * x;
    }
    return std::sqrt(sum / static_cast<double>(samples.size()));
}

std::vector<double> sine(double frequency_hz, double rate_hz, double offset) {
    return plus_sine(std::vector<double>(static_cast<std::size_t>(6.0 * rate_hz), offset), rate_hz, frequency_hz, 1.0);
}

}  // namespace

// Butterworth, closed form: -3.01 dB at either edge after both passes, next to nothing a decade below.
TEST_CASE("the band is 20 to 450 Hz after both passes", "[emg][emg_signal]") {
    struct Row {
        double frequency_hz;
        double gain;
    };
    const auto row = GENERATE(values<Row>({{20.0, std::sqrt(0.5)}, {450.0, std::sqrt(0.5)}, {100.0, 1.0}, {2.0, 0.0}}));
    CAPTURE(row.frequency_hz);
    Findings findings;
    const auto signal = prepare_emg(channel_of(sine(row.frequency_hz, 2000.0, 0.3), 2000.0),
                                    {.form = EmgForm::raw, .mains = {.rule = MainsChoice::Rule::off}}, findings);
    REQUIRE(signal);
    CHECK_THAT(rms(slice(signal->samples, {4000, 8000})), WithinAbs(row.gain * std::sqrt(0.5), 2e-3));
}

TEST_CASE("what the rate allows is done and said", "[emg][emg_signal]") {
    struct Row {
        double rate_hz;
        const char* step;
        bool is_lowered;
    };
    const auto row = GENERATE(values<Row>({{2000.0, "band-pass 20-450 Hz", false},
                                           {1000.0, "band-pass 20-450 Hz", false},
                                           {500.0, "high-pass 20 Hz", true},
                                           {200.0, "high-pass 10 Hz", true},
                                           {100.0, "high-pass 5 Hz", true}}));
    CAPTURE(row.rate_hz);
    Findings findings;
    const auto signal = prepare_emg(channel_of(simulated_emg(6.0, row.rate_hz, 0.3, 0.01), row.rate_hz), {}, findings);
    REQUIRE(signal);
    CHECK(std::ranges::find(signal->steps, row.step) != signal->steps.end());
    CHECK(contains(findings, "emg-band-lowered") == row.is_lowered);
    CHECK(signal->has_frequencies() == (row.rate_hz >= 1000.0));
    CHECK(std::ranges::min(signal->envelope) >= 0.0);
}

TEST_CASE("a stated band that the rate does not allow is refused", "[emg][emg_signal]") {
    Findings findings;
    const auto samples = simulated_emg(4.0, 200.0, 0.3, 0.01);
    EmgOptions options;
    options.band.rule = EmgBand::Rule::fixed;
    CHECK_THROWS_WITH(prepare_emg(channel_of(samples, 200.0), options, findings), ContainsSubstring("450 Hz"));
    options.band = {.rule = EmgBand::Rule::fixed, .low = Hertz(30.0), .high = Hertz(90.0)};
    CHECK(prepare_emg(channel_of(samples, 200.0), options, findings));
    options.band.rule = EmgBand::Rule::off;
    const auto unfiltered = prepare_emg(channel_of(samples, 200.0), options, findings);
    CHECK_THAT(unfiltered->samples[100] - unfiltered->samples[50], WithinAbs(samples[100] - samples[50], 1e-12));
}

TEST_CASE("hum is taken out, and left in when asked to", "[emg][emg_signal]") {
    const auto quiet = simulated_emg(8.0, 1000.0, 0.02, 0.02);
    const auto channel = channel_of(plus_sine(quiet, 1000.0, 60.0, 0.04), 1000.0);
    Findings findings;
    const auto cleaned = prepare_emg(channel, {}, findings);
    CHECK(contains(findings, "mains-hum"));
    CHECK(std::ranges::find(cleaned->steps, "notch at 60 Hz") != cleaned->steps.end());
    const double wanted = rms(slice(prepare_emg(channel_of(quiet, 1000.0), {}, findings)->samples, {2000, 6000}));
    CHECK_THAT(rms(slice(cleaned->samples, {2000, 6000})), WithinRel(wanted, 0.03));
    const auto left = prepare_emg(channel, {.mains = {.rule = MainsChoice::Rule::off}}, findings);
    CHECK(rms(slice(left->samples, {2000, 6000})) > 1.5 * wanted);
}

TEST_CASE("what is smoothed or rectified already is not filtered again", "[emg][emg_signal]") {
    const auto raw = simulated_emg(8.0, 200.0, 0.3, 0.01);
    const auto envelope = linear_envelope(raw, Hertz(4.0), Hertz(200.0));
    Findings findings;
    const auto taken = prepare_emg(channel_of(envelope, 200.0), {}, findings);
    CHECK(contains(findings, "emg-form"));
    CHECK_FALSE(contains(findings, "emg-undersampled"));
    CHECK(taken->envelope == envelope);
    const auto folded = prepare_emg(channel_of(rectified(raw), 200.0), {}, findings);
    CHECK(folded->form == EmgForm::rectified);
    CHECK(folded->samples == rectified(raw));
    CHECK_THAT(folded->envelope[800], WithinAbs(linear_envelope(raw, Hertz(6.0), Hertz(200.0))[800], 1e-12));
}

TEST_CASE("what swings below zero is no envelope even if it is called one", "[emg][emg_signal]") {
    const auto channel = channel_of(simulated_emg(4.0, 1000.0, 0.3, 0.01), 1000.0);
    Findings findings;
    CHECK_THROWS_WITH(prepare_emg(channel, {.form = EmgForm::envelope}, findings), ContainsSubstring("below zero"));
    CHECK_THROWS_AS(prepare_emg(channel, {.form = EmgForm::rectified}, findings), Failure);
    std::vector<double> noisy = linear_envelope(channel.samples, Hertz(4.0), Hertz(1000.0));
    for (double& sample : noisy) {
        sample -= 0.002;
    }
    CHECK(prepare_emg(channel_of(noisy, 1000.0), {.form = EmgForm::envelope}, findings));
}

TEST_CASE("the moving RMS may stand in for the linear envelope", "[emg][emg_signal]") {
    Findings findings;
    const auto signal =
        prepare_emg(channel_of(simulated_emg(4.0, 1000.0, 0.3, 0.01), 1000.0), {.rms_window = Seconds(0.1)}, findings);
    CHECK_THAT(signal->envelope[2000], WithinRel(moving_rms(signal->samples, 100)[2000], 1e-12));
}

TEST_CASE("a channel without a muscle is left out and named", "[emg][emg_signal]") {
    const auto finding = [](std::vector<double> samples, double rate_hz) {
        Findings findings;
        const bool is_used = prepare_emg(channel_of(std::move(samples), rate_hz), {}, findings).has_value();
        CHECK_FALSE(is_used);
        return findings.empty() ? std::string() : std::string(findings.back().code());
    };
    CHECK(finding(std::vector<double>(5000, 0.2), 1000.0) == "emg-unplugged");
    CHECK(finding(std::vector<double>(5000, missing), 1000.0) == "emg-unplugged");
    CHECK(finding({0.2}, 1000.0) == "emg-unplugged");
    CHECK(finding({0.2, -0.3, 0.1}, 1000.0) == "emg-too-short");
    CHECK(finding({0.2, -3e300, 1e299, 0.1}, 1000.0) == "emg-unplugged");
    auto crumbs = simulated_emg(4.0, 1000.0, 0.3, 0.01);
    for (std::size_t i = 0; i < crumbs.size(); i += 3) {
        crumbs[i] = missing;
    }
    CHECK(finding(crumbs, 1000.0) == "emg-too-short");
}

TEST_CASE("missing samples stay missing, and crumbs between them are left out", "[emg][emg_signal]") {
    auto samples = simulated_emg(4.0, 1000.0, 0.3, 0.01);
    samples[1000] = samples[1020] = missing;
    Findings findings;
    const auto signal = prepare_emg(channel_of(samples, 1000.0), {}, findings);
    CHECK(contains(findings, "emg-gap"));
    CHECK(std::isnan(signal->samples[1010]));
    CHECK_FALSE(std::isnan(signal->samples[999] + signal->samples[1021]));
}

TEST_CASE("stamps that vary are put on an even grid", "[emg][emg_signal]") {
    const auto samples = simulated_emg(4.0, 1000.0, 0.3, 0.01);
    std::vector<double> time_s(samples.size());
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        time_s[i] = 0.25 + 0.001 * static_cast<double>(i) + (i % 7 == 0 ? 2e-4 : 0.0);
    }
    Findings findings;
    const auto signal = prepare_emg(channel_of(samples, TimeBase::stamped(time_s)), {}, findings);
    REQUIRE(signal);
    CHECK_THAT(signal->rate.value(), WithinRel(1000.0, 1e-6));
    CHECK_THAT(signal->start.value(), WithinAbs(0.2502, 1e-9));
}

TEST_CASE("a span in time is half open", "[emg][emg_signal]") {
    EmgSignal signal;
    signal.start = Seconds(1.5);
    signal.rate = Hertz(100.0);
    signal.samples.assign(100, 0.0);
    CHECK(signal.span(Seconds(1.6), Seconds(1.7)) == SampleSpan{10, 20});
    CHECK(signal.span(Seconds(0.0), Seconds(9.0)) == SampleSpan{0, 100});
    CHECK(signal.span(Seconds(1.7), Seconds(1.6)).empty());
}
