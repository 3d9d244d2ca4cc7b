#include <jointrom/signal/section_cascade.hpp>

#include "signal_reference.hpp"

using namespace jointrom;
using namespace jointrom::test;

// SciPy 1.10.1: sosfilt.
TEST_CASE("a single pass has the reference output to the last bit", "[signal][section_cascade]") {
    const auto outputs = reference_json("reference/signal/filter_outputs.json")["outputs"];
    const auto design = reference_json("reference/signal/filter_designs.json")["designs"][0];
    const Sections sections = sections_from(design["sections"]);
    std::vector<double> from_rest = filter_test_signal();
    std::vector<SectionState> state(1);
    run_forward(from_rest, sections, state);
    CHECK(from_rest == outputs["causal_lp2_6hz_zero_state"].get<std::vector<double>>());

    std::vector<double> from_steady = filter_test_signal();
    state[0] = {design["steady_state"][0][0].get<double>() * from_steady.front(),
                design["steady_state"][0][1].get<double>() * from_steady.front()};
    run_forward(from_steady, sections, state);
    CHECK(from_steady == outputs["causal_lp2_6hz_steady_start"].get<std::vector<double>>());
    CHECK(largest_difference(single_pass(filter_test_signal(), sections), from_steady) < 1e-12);
}

// SciPy 1.10.1: sosfilt_zi.
TEST_CASE("steady states are the reference ones", "[signal][section_cascade]") {
    for (const auto all = reference_json("reference/signal/filter_designs.json"); const auto& design : all["designs"]) {
        INFO(design["name"]);
        const std::vector<SectionState> state = steady_state(sections_from(design["sections"]), 2.5);
        REQUIRE(state.size() == design["steady_state"].size());
        for (std::size_t k = 0; k < state.size(); ++k) {
            CHECK_THAT(state[k].s1, WithinAbs(2.5 * design["steady_state"][k][0].get<double>(), 1e-9));
            CHECK_THAT(state[k].s2, WithinAbs(2.5 * design["steady_state"][k][1].get<double>(), 1e-9));
        }
    }
}

TEST_CASE("a constant passes a low-pass unchanged from its first sample on", "[signal][section_cascade]") {
    const std::vector<double> constant(40, -73.25);
    for (const int order : {1, 2, 5, 7, 12}) {
        const auto result = single_pass(constant, butterworth_lowpass(order, Hertz(3.7), Hertz(50.0)));
        CHECK(largest_difference(result, constant) < 1e-9);
    }
}

TEST_CASE("filtering in parts, or section by section, gives the same bits", "[signal][section_cascade]") {
    const std::vector<double> x = filter_test_signal();
    const Sections sections = butterworth_bandpass(9, Hertz(2.0), Hertz(30.0), Hertz(100.0));
    const std::vector<double> whole = single_pass(x, sections);

    std::vector<double> parts = x;
    std::vector<SectionState> state = steady_state(sections, x.front());
    run_forward(std::span(parts).first(101), sections, state);
    run_forward(std::span(parts).subspan(101), sections, state);
    CHECK(parts == whole);

    std::vector<double> one_by_one = x;
    state = steady_state(sections, x.front());
    for (std::size_t k = 0; k < sections.size(); ++k) {
        run_forward(one_by_one, {sections[k]}, std::span(state).subspan(k, 1));
    }
    CHECK(one_by_one == whole);
}

TEST_CASE("running backward is running forward on reversed samples", "[signal][section_cascade]") {
    const Sections sections = butterworth_lowpass(3, Hertz(6.0), Hertz(100.0));
    std::vector<double> backward = filter_test_signal();
    std::vector<double> reversed(backward.rbegin(), backward.rend());
    std::vector<SectionState> state(sections.size());
    run_backward(backward, sections, state);
    state.assign(sections.size(), {});
    run_forward(reversed, sections, state);
    std::ranges::reverse(reversed);
    CHECK(backward == reversed);
}

TEST_CASE("no samples and no sections are allowed", "[signal][section_cascade]") {
    CHECK(single_pass({}, butterworth_lowpass(2, Hertz(6.0), Hertz(100.0))).empty());
    CHECK(single_pass(filter_test_signal(), {}) == filter_test_signal());
}

TEST_CASE("two series side by side give the bits of each alone", "[signal][section_cascade]") {
    const std::vector<double> x = filter_test_signal();
    const std::vector<double> reversed(x.rbegin(), x.rend());
    for (const int order : {2, 5, 11}) {
        const Sections sections = butterworth_lowpass(order, Hertz(6.0), Hertz(100.0));
        std::vector<double> a = x, b = reversed;
        single_passes_in_place(a, b, sections);
        CHECK(a == single_pass(x, sections));
        CHECK(b == single_pass(reversed, sections));
    }
    std::span<double> none;
    single_passes_in_place(none, none, butterworth_lowpass(2, Hertz(6.0), Hertz(100.0)));
}
