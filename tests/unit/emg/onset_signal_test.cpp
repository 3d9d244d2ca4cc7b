#include "emg/onset_signal.hpp"

#include "emg_reference.hpp"
#include "simulated_emg.hpp"

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

/// Bursts from 0 to 0.5 s of each second: the time by which each is found early at its start and late at its end.
struct Errors {
    std::vector<double> early_s;
    std::vector<double> late_s;
};

Errors errors_of(double rate_hz, double rest_mv, OnsetSignal kind) {
    constexpr double seconds = 61.0;
    Findings findings;
    const auto signal = prepare_emg(channel_of(simulated_emg(seconds, rate_hz, 0.4, rest_mv), rate_hz), {}, findings);
    const auto level = onset_signal(*signal, kind);
    std::vector<double> rest;
    for (std::size_t i = 0; i < level.size(); ++i) {
        const double time_s = static_cast<double>(i) / rate_hz;
        if (time_s - std::floor(time_s) > 0.7 && time_s - std::floor(time_s) < 0.95) {
            rest.push_back(level[i]);
        }
    }
    const auto baseline = baseline_of(rest, {0, rest.size()});
    Errors errors;
    for (const SampleSpan burst : active_bursts(level, Hertz(rate_hz), baseline->threshold(3.0))) {
        const double on_s = static_cast<double>(burst.first) / rate_hz;
        const double off_s = static_cast<double>(burst.last) / rate_hz;
        if (off_s - on_s > 0.3 && on_s > 0.5 && off_s < seconds - 1.0) {
            errors.early_s.push_back(std::round(on_s) - on_s);
            errors.late_s.push_back(off_s - std::floor(off_s) - 0.5);
        }
    }
    return errors;
}

double mean(const std::vector<double>& values) {
    return describe(values).mean;
}

}  // namespace

// Filters that run both ways smear a strong burst: on these signals its start was found up to 0.06 s early at 100 Hz,
// 0.03 s at 200 Hz and 0.02 s at 1000 Hz.
TEST_CASE("strong bursts are found where they start and end at any rate", "[emg][onset_signal]") {
    struct Row {
        double rate_hz;
        double rest_mv;
        OnsetSignal kind;
        double within_s;
    };
    const auto row = GENERATE(values<Row>({{100.0, 0.04, OnsetSignal::envelope, 0.010},
                                           {100.0, 0.006, OnsetSignal::envelope, 0.010},
                                           {200.0, 0.04, OnsetSignal::envelope, 0.006},
                                           {200.0, 0.006, OnsetSignal::envelope, 0.005},
                                           {500.0, 0.006, OnsetSignal::envelope, 0.005},
                                           {1000.0, 0.04, OnsetSignal::envelope, 0.005},
                                           {1000.0, 0.006, OnsetSignal::envelope, 0.005},
                                           {2000.0, 0.006, OnsetSignal::envelope, 0.005},
                                           {1000.0, 0.04, OnsetSignal::teager_kaiser, 0.008},
                                           {1000.0, 0.006, OnsetSignal::teager_kaiser, 0.005}}));
    CAPTURE(row.rate_hz, row.rest_mv);
    const Errors errors = errors_of(row.rate_hz, row.rest_mv, row.kind);
    REQUIRE(errors.early_s.size() >= 50);
    CHECK_THAT(mean(errors.early_s), WithinAbs(0.0, row.within_s));
    CHECK_THAT(mean(errors.late_s), WithinAbs(0.0, row.within_s));
    CHECK(describe(errors.early_s).sd < 0.015);
}

TEST_CASE("missing samples of the onset signal stay missing, and an envelope stays itself", "[emg][onset_signal]") {
    EmgSignal signal;
    signal.rate = Hertz(1000.0);
    signal.unfiltered = {0.1, missing, 0.2, -0.1, 0.3, missing};
    signal.samples = signal.unfiltered;
    const auto plain = onset_signal(signal, OnsetSignal::envelope);
    const auto energy = onset_signal(signal, OnsetSignal::teager_kaiser);
    CHECK(std::isnan(plain[1] + plain[5]));
    CHECK_FALSE(std::isnan(plain[0] + plain[3]));
    CHECK(std::isnan(energy[0]));
    CHECK_FALSE(std::isnan(energy[3]));
    signal.form = EmgForm::envelope;
    signal.envelope = {1.0, 2.0};
    CHECK(onset_signal(signal, OnsetSignal::envelope) == signal.envelope);
}
