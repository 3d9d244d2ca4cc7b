#include <jointrom/signal/butterworth.hpp>

#include "signal_reference.hpp"

#include <jointrom/core/failure.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const auto designs = [] { return reference_json("reference/signal/filter_designs.json"); };

Sections design(const nlohmann::json& wanted) {
    const int order = wanted["order"];
    const Hertz rate(wanted["rate_hz"]);
    const auto& cutoff = wanted["cutoff_hz"];
    const std::string type = wanted["type"];
    if (type == "lowpass") {
        return butterworth_lowpass(order, Hertz(cutoff), rate);
    }
    if (type == "highpass") {
        return butterworth_highpass(order, Hertz(cutoff), rate);
    }
    const auto band = type == "bandpass" ? butterworth_bandpass : butterworth_bandstop;
    return band(order, Hertz(cutoff[0]), Hertz(cutoff[1]), rate);
}

double decibel(std::complex<double> gain) {
    return 20.0 * std::log10(std::abs(gain));
}

template <typename Request>
std::string failure_code(Request request) {
    try {
        request();
    } catch (const Failure& failure) {
        return failure.code();
    }
    return "";
}

}  // namespace

// SciPy 1.10.1: butter, sosfreqz.
TEST_CASE("Butterworth designs have the reference frequency response", "[signal][butterworth]") {
    for (const auto all = designs(); const auto& wanted : all["designs"]) {
        INFO(wanted["name"]);
        const Sections sections = design(wanted);
        for (const auto& row : wanted["response"]) {
            const std::complex<double> gain = frequency_response(sections, Hertz(row[0]), Hertz(wanted["rate_hz"]));
            CHECK_THAT(std::abs(gain - std::complex<double>(row[1], row[2])), WithinAbs(0.0, 1e-12));
        }
    }
}

// SciPy 1.10.1: iirnotch, freqz.
TEST_CASE("a notch has the reference coefficients and response", "[signal][butterworth]") {
    for (const auto all = designs(); const auto& wanted : all["notches"]) {
        const Sections sections = notch(Hertz(wanted["centre_hz"]), wanted["q"], Hertz(wanted["rate_hz"]));
        REQUIRE(sections.size() == 1);
        CHECK_THAT(sections[0].b0, WithinAbs(wanted["section"][0], 1e-14));
        CHECK_THAT(sections[0].a1, WithinAbs(wanted["section"][3], 1e-14));
        for (const auto& row : wanted["magnitude"]) {
            CHECK_THAT(std::abs(frequency_response(sections, Hertz(row[0]), Hertz(wanted["rate_hz"]))),
                       WithinAbs(row[1], 1e-12));
        }
    }
}

TEST_CASE("every design is 3.01 dB down at its edges and flat where it must be", "[signal][butterworth]") {
    const int order = GENERATE(1, 2, 3, 4, 5, 8);
    const Hertz rate(GENERATE(97.0, 1000.0));
    const Hertz low(7.3);
    const Hertz high(31.9);
    const double half_power = 10.0 * std::log10(0.5);
    INFO(order << " at " << rate.value() << " Hz");

    const Sections lowpass = butterworth_lowpass(order, low, rate);
    CHECK_THAT(decibel(frequency_response(lowpass, low, rate)), WithinAbs(half_power, 1e-9));
    CHECK_THAT(decibel(frequency_response(lowpass, Hertz(0.0), rate)), WithinAbs(0.0, 1e-9));

    const Sections highpass = butterworth_highpass(order, low, rate);
    CHECK_THAT(decibel(frequency_response(highpass, low, rate)), WithinAbs(half_power, 1e-9));
    CHECK_THAT(decibel(frequency_response(highpass, Hertz(rate.value() / 2.0), rate)), WithinAbs(0.0, 1e-9));

    const Sections bandpass = butterworth_bandpass(order, low, high, rate);
    CHECK(bandpass.size() == static_cast<std::size_t>(order));
    CHECK_THAT(decibel(frequency_response(bandpass, low, rate)), WithinAbs(half_power, 1e-9));
    CHECK_THAT(decibel(frequency_response(bandpass, high, rate)), WithinAbs(half_power, 1e-9));

    const Sections bandstop = butterworth_bandstop(order, low, high, rate);
    CHECK_THAT(decibel(frequency_response(bandstop, low, rate)), WithinAbs(half_power, 1e-9));
    CHECK_THAT(decibel(frequency_response(bandstop, high, rate)), WithinAbs(half_power, 1e-9));
    CHECK_THAT(decibel(frequency_response(bandstop, Hertz(0.0), rate)), WithinAbs(0.0, 1e-9));
}

// Closed form of Winter 2009 p. 69 on the warped frequency; values computed with SciPy 1.10.1.
TEST_CASE("the design cut-off makes all passes together 3.01 dB down", "[signal][butterworth]") {
    for (const auto all = designs(); const auto& wanted : all["dual_pass"]) {
        const int order = wanted["order"];
        const int passes = wanted["passes"];
        const Hertz rate(wanted["rate_hz"]);
        const Hertz cutoff(wanted["wanted_hz"]);
        const Hertz corrected = design_cutoff(cutoff, order, passes, rate);
        CHECK_THAT(corrected.value(), WithinRel(wanted["design_hz"].get<double>(), 1e-12));
        const double lowpass = std::abs(frequency_response(butterworth_lowpass(order, corrected, rate), cutoff, rate));
        CHECK_THAT(std::pow(lowpass, passes), WithinAbs(std::sqrt(0.5), 1e-12));
        const Hertz for_highpass = highpass_design_cutoff(cutoff, order, passes, rate);
        const double highpass =
            std::abs(frequency_response(butterworth_highpass(order, for_highpass, rate), cutoff, rate));
        CHECK_THAT(std::pow(highpass, passes), WithinAbs(std::sqrt(0.5), 1e-12));
    }
}

TEST_CASE("a cut-off that the rate cannot serve is refused", "[signal][butterworth]") {
    const Hertz rate(12.0);
    CHECK(failure_code([&] { return butterworth_lowpass(2, Hertz(6.0), rate); }) == "cutoff-too-high");
    CHECK(failure_code([&] { return butterworth_highpass(2, Hertz(7.1), rate); }) == "cutoff-too-high");
    CHECK(failure_code([&] { return butterworth_bandpass(2, Hertz(1.0), Hertz(450.0), rate); }) == "cutoff-too-high");
    CHECK(failure_code([&] { return notch(Hertz(50.0), 30.0, rate); }) == "cutoff-too-high");
    CHECK(failure_code([&] { return Sections(1, {design_cutoff(Hertz(6.0), 2, 2, rate).value()}); }) ==
          "cutoff-too-high");
    CHECK(failure_code([&] { return butterworth_lowpass(2, Hertz(0.0), rate); }) == "cutoff-not-positive");
    CHECK(failure_code([&] { return butterworth_lowpass(2, Hertz(), rate); }) == "cutoff-not-positive");
    CHECK(failure_code([&] { return butterworth_bandstop(2, Hertz(5.0), Hertz(3.0), rate); }) == "band-edges-reversed");
}

TEST_CASE("settling time is that of the slowest pole", "[signal][butterworth]") {
    // A pole at 0.5 halves with each sample: 2^-10 is the first power of two below 1/1000.
    CHECK(settling_samples({{1.0, 0.0, 0.0, -0.5, 0.0}}) == 10);
    CHECK(settling_samples({{1.0, 0.0, 0.0, 0.0, 0.25}, {1.0, 0.0, 0.0, -0.1, 0.0}}) == 10);
    CHECK(settling_samples({{0.5, 0.5, 0.0, 0.0, 0.0}}) == 0);
    CHECK(settling_samples({}) == 0);
    CHECK(settling_samples({{1.0, 0.0, 0.0, -1.0, 0.0}}) == 1'000'000'000'000'000);  // never
    const auto at = [](double rate_hz) {
        return static_cast<double>(settling_samples(butterworth_lowpass(2, Hertz(6.0), Hertz(rate_hz)))) / rate_hz;
    };
    CHECK_THAT(at(10000.0), WithinRel(at(500.0), 0.02));
}
