#include <jointrom/signal/zero_phase.hpp>

#include "signal_reference.hpp"

#include <jointrom/core/failure.hpp>

using namespace jointrom;
using namespace jointrom::test;

namespace {

const Hertz rate(100.0);

std::vector<double> reference_output(const std::string& name) {
    const auto output = reference_json("reference/signal/filter_outputs.json")["outputs"][name];
    return output.is_object() ? output["y"] : output;
}

std::vector<double> reversed(std::vector<double> x) {
    std::ranges::reverse(x);
    return x;
}

double range(const std::vector<double>& x) {
    return std::ranges::max(x) - std::ranges::min(x);
}

}  // namespace

// SciPy 1.10.1: sosfiltfilt with the sections of butter. What remains is the rounding of the steady state.
TEST_CASE("with the same sections and padding the output is the reference's", "[signal][zero_phase]") {
    const auto designs = reference_json("reference/signal/filter_designs.json")["designs"];
    const Sections second_order = sections_from(designs[0]["sections"]);
    const Sections fourth_order = sections_from(designs[1]["sections"]);
    const auto x = filter_test_signal();
    const auto difference = [&](const Sections& sections, EdgeExtension edges, const std::string& name) {
        return largest_difference(zero_phase(x, sections, edges), reference_output(name));
    };
    CHECK(difference(second_order, {.pad_samples = 9}, "two_pass_lp2_6hz_odd_pad") < 1e-12);
    CHECK(difference(second_order, {.pad_samples = 6}, "two_pass_lp2_6hz_odd_pad6") < 1e-12);
    CHECK(difference(second_order, {.pad_samples = 100}, "two_pass_lp2_6hz_odd_pad100") < 1e-12);
    CHECK(difference(fourth_order, {.pad_samples = 15}, "two_pass_lp4_6hz_odd_pad") < 1e-12);
    CHECK(difference(second_order, {.rule = EdgeRule::none}, "two_pass_lp2_6hz_no_pad") < 1e-12);
    CHECK(difference(second_order, {EdgeRule::even_reflection, 9}, "two_pass_lp2_6hz_even_pad9") < 1e-12);
    CHECK(difference(second_order, {EdgeRule::repeat_end, 9}, "two_pass_lp2_6hz_constant_pad9") < 1e-12);
}

// SciPy 1.10.1: sosfiltfilt, filtfilt(method="gust").
TEST_CASE("with our own sections the output agrees with the reference", "[signal][zero_phase]") {
    const auto x = filter_test_signal();
    const Sections second_order = butterworth_lowpass(2, Hertz(6.0), rate);
    CHECK(largest_difference(zero_phase(x, second_order, {.pad_samples = 9}),
                             reference_output("two_pass_lp2_6hz_odd_pad")) < 1e-9);
    CHECK(largest_difference(zero_phase(x, butterworth_lowpass(4, Hertz(6.0), rate), {.pad_samples = 15}),
                             reference_output("two_pass_lp4_6hz_odd_pad")) < 1e-9);
    CHECK(largest_difference(lowpass_zero_phase(x, Hertz(6.0), rate, 2, {.pad_samples = 9}),
                             reference_output("two_pass_lp2_corrected_odd_pad")) < 1e-9);
    CHECK(largest_difference(zero_phase(x, second_order, {.rule = EdgeRule::gustafsson}),
                             reference_output("two_pass_lp2_6hz_gustafsson")) < 1e-9);
}

TEST_CASE("the filter is linear and blind to the direction of time", "[signal][zero_phase]") {
    const EdgeRule rule = GENERATE(EdgeRule::odd_reflection, EdgeRule::even_reflection, EdgeRule::repeat_end,
                                   EdgeRule::none, EdgeRule::gustafsson);
    INFO(static_cast<int>(rule));
    const Sections sections = butterworth_lowpass(3, Hertz(5.1), rate);
    const auto filtered = [&](const std::vector<double>& samples) { return zero_phase(samples, sections, {rule}); };
    const auto x = filter_test_signal();
    auto y = sine(17.3, 1.9, 100.0, x.size());
    auto combined = x;
    for (std::size_t i = 0; i < x.size(); ++i) {
        combined[i] = 2.5 * x[i] - y[i];
    }
    const auto filtered_x = filtered(x);
    const auto filtered_y = filtered(y);
    auto expected = filtered_x;
    for (std::size_t i = 0; i < x.size(); ++i) {
        expected[i] = 2.5 * filtered_x[i] - filtered_y[i];
    }
    CHECK(largest_difference(filtered(combined), expected) < 1e-9);

    // Forward first and backward first differ a little near the ends, except by Gustafsson's rule.
    const auto turned = reversed(filtered(reversed(x)));
    const std::size_t margin = rule == EdgeRule::gustafsson ? 0 : 110;
    CHECK(largest_difference(
              {turned.begin() + static_cast<long>(margin), turned.end() - static_cast<long>(margin)},
              {filtered_x.begin() + static_cast<long>(margin), filtered_x.end() - static_cast<long>(margin)}) < 1e-6);
}

TEST_CASE("a slow sine keeps its range and its phase at any rate", "[signal][zero_phase]") {
    const double rate_hz = GENERATE(20.0, 100.0, 1000.0, 10000.0);
    INFO(rate_hz);
    const auto slow = sine(60.0, 0.5, rate_hz, static_cast<std::size_t>(8.0 * rate_hz));
    const auto filtered = lowpass_zero_phase(slow, Hertz(6.0), Hertz(rate_hz));
    // Gain of both passes at 0.5 Hz: 1 / (1 + (0.5 / 7.48)^4), a loss of 0.002 %.
    CHECK_THAT(range(filtered), WithinAbs(range(slow), 0.01));
    CHECK(largest_difference(filtered, slow) < 0.01);
}

TEST_CASE("odd reflection keeps constants and ramps to their very ends", "[signal][zero_phase]") {
    std::vector<double> ramp(300);
    for (std::size_t i = 0; i < ramp.size(); ++i) {
        ramp[i] = 12.5 - 0.7 * static_cast<double>(i);
    }
    // The default padding leaves a thousandth of the transient of a slope that starts at the edge of the padding.
    CHECK(largest_difference(lowpass_zero_phase(ramp, Hertz(6.0), rate), ramp) < 0.01);
    const std::vector<double> constant(50, 41.75);
    CHECK(largest_difference(lowpass_zero_phase(constant, Hertz(6.0), rate), constant) < 1e-9);
}

TEST_CASE("inputs shorter than the padding are filtered all the same", "[signal][zero_phase]") {
    const Sections sections = butterworth_lowpass(2, Hertz(6.0), rate);
    CHECK(zero_phase({}, sections).empty());
    const EdgeRule rule = GENERATE(EdgeRule::odd_reflection, EdgeRule::even_reflection, EdgeRule::repeat_end,
                                   EdgeRule::none, EdgeRule::gustafsson);
    INFO(static_cast<int>(rule));
    CHECK(largest_difference(zero_phase(std::vector{88.5}, sections, {rule}), {88.5}) < 1e-9);
    for (const double value : zero_phase(std::vector{10.0, 11.0}, sections, {rule})) {
        CHECK_THAT(value, WithinAbs(10.5, 0.6));
    }
    for (const double value : zero_phase(std::vector{10.0, 12.0, 11.0, 10.5, 11.5}, sections, {rule})) {
        CHECK_THAT(value, WithinAbs(11.0, 1.1));
    }
}

TEST_CASE("reflection goes on about the other end of a short ramp", "[signal][zero_phase]") {
    const auto filtered = zero_phase(std::vector{3.0, 5.0, 7.0}, butterworth_lowpass(2, Hertz(6.0), rate));
    CHECK(largest_difference(filtered, {3.0, 5.0, 7.0}) < 0.05);
}

TEST_CASE("a zero-phase cut-off at half the rate is refused", "[signal][zero_phase]") {
    CHECK_THROWS_AS(lowpass_zero_phase(filter_test_signal(), Hertz(50.0), rate), Failure);
}
