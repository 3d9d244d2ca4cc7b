#include <jointrom/signal/section_cascade.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <iterator>

namespace jointrom {
namespace {

/// All sections in one loop, their number known to the compiler, so that coefficients and states stay in registers.
/// Several series side by side fill the time in which each waits for its own last sample.
template <std::size_t Count, typename Iterator, std::size_t Series>
void run_fused(std::array<Iterator, Series> at, std::size_t size, const Section* sections,
               const std::array<SectionState*, Series>& states) {
    std::array<Section, Count> f;
    std::array<std::array<SectionState, Count>, Series> s;
    std::copy_n(sections, Count, f.begin());
    for (std::size_t j = 0; j < Series; ++j) {
        std::copy_n(states[j], Count, s[j].begin());
    }
    for (std::size_t i = 0; i < size; ++i) {
        for (std::size_t j = 0; j < Series; ++j) {
            double x = *at[j];
            for (std::size_t k = 0; k < Count; ++k) {
                const double y = f[k].b0 * x + s[j][k].s1;
                s[j][k].s1 = f[k].b1 * x - f[k].a1 * y + s[j][k].s2;
                s[j][k].s2 = f[k].b2 * x - f[k].a2 * y;
                x = y;
            }
            *at[j]++ = x;
        }
    }
    for (std::size_t j = 0; j < Series; ++j) {
        std::copy_n(s[j].begin(), Count, states[j]);
    }
}

/// \param states of each series, one entry per section
template <typename Iterator, std::size_t Series>
void run(const std::array<Iterator, Series>& first, std::size_t size, const Sections& sections,
         std::array<SectionState*, Series> states) {
    constexpr std::size_t most_fused = 4;
    for (std::size_t k = 0; k < sections.size(); k += most_fused) {
        const Section* section = sections.data() + k;
        const std::size_t count = std::min(most_fused, sections.size() - k);
        switch (count) {
        case 1:
            run_fused<1>(first, size, section, states);
            break;
        case 2:
            run_fused<2>(first, size, section, states);
            break;
        case 3:
            run_fused<3>(first, size, section, states);
            break;
        default:
            run_fused<most_fused>(first, size, section, states);
            break;
        }
        for (SectionState*& state : states) {
            state += count;
        }
    }
}

}  // namespace

std::vector<SectionState> steady_state(const Sections& sections, double level) {
    std::vector<SectionState> states;
    states.reserve(sections.size());
    double gain_so_far = 1.0;
    for (const Section& f : sections) {
        const double denominator = 1.0 + f.a1 + f.a2;
        const double s1 = ((f.b1 - f.a1 * f.b0) + (f.b2 - f.a2 * f.b0)) / denominator;
        const double s2 = (1.0 + f.a1) * s1 - (f.b1 - f.a1 * f.b0);
        states.push_back({gain_so_far * s1 * level, gain_so_far * s2 * level});
        gain_so_far *= (f.b0 + f.b1 + f.b2) / denominator;
    }
    return states;
}

void run_forward(std::span<double> samples, const Sections& sections, std::span<SectionState> state) {
    assert(state.size() == sections.size());
    run(std::array{samples.begin()}, samples.size(), sections, std::array{state.data()});
}

void run_backward(std::span<double> samples, const Sections& sections, std::span<SectionState> state) {
    assert(state.size() == sections.size());
    run(std::array{samples.rbegin()}, samples.size(), sections, std::array{state.data()});
}

std::vector<double> single_pass(std::span<const double> samples, const Sections& sections) {
    assert(std::ranges::none_of(samples, [](double x) { return std::isnan(x); }));
    std::vector<double> result(samples.begin(), samples.end());
    if (!result.empty()) {
        std::vector<SectionState> state = steady_state(sections, result.front());
        run_forward(result, sections, state);
    }
    return result;
}

void single_passes_in_place(std::span<double> a, std::span<double> b, const Sections& sections) {
    assert(a.size() == b.size());
    if (!a.empty()) {
        std::vector<SectionState> of_a = steady_state(sections, a.front());
        std::vector<SectionState> of_b = steady_state(sections, b.front());
        run(std::array{a.begin(), b.begin()}, a.size(), sections, std::array{of_a.data(), of_b.data()});
    }
}

}  // namespace jointrom
