#include <jointrom/signal/section_cascade.hpp>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <iterator>

namespace jointrom {
namespace {

/// All sections in one loop, their number known to the compiler, so that coefficients and states stay in registers.
template <std::size_t Count, typename Iterator>
void run_fused(Iterator first, Iterator last, const Section* sections, SectionState* states) {
    std::array<Section, Count> f;
    std::array<SectionState, Count> s;
    std::copy_n(sections, Count, f.begin());
    std::copy_n(states, Count, s.begin());
    for (Iterator sample = first; sample != last; ++sample) {
        double x = *sample;
        for (std::size_t k = 0; k < Count; ++k) {
            const double y = f[k].b0 * x + s[k].s1;
            s[k].s1 = f[k].b1 * x - f[k].a1 * y + s[k].s2;
            s[k].s2 = f[k].b2 * x - f[k].a2 * y;
            x = y;
        }
        *sample = x;
    }
    std::copy_n(s.begin(), Count, states);
}

template <typename Iterator>
void run(Iterator first, Iterator last, const Sections& sections, std::span<SectionState> states) {
    assert(states.size() == sections.size());
    constexpr std::size_t most_fused = 4;
    for (std::size_t k = 0; k < sections.size(); k += most_fused) {
        const Section* section = sections.data() + k;
        SectionState* state = states.data() + k;
        switch (std::min(most_fused, sections.size() - k)) {
        case 1:
            run_fused<1>(first, last, section, state);
            break;
        case 2:
            run_fused<2>(first, last, section, state);
            break;
        case 3:
            run_fused<3>(first, last, section, state);
            break;
        default:
            run_fused<most_fused>(first, last, section, state);
            break;
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
    run(samples.begin(), samples.end(), sections, state);
}

void run_backward(std::span<double> samples, const Sections& sections, std::span<SectionState> state) {
    run(samples.rbegin(), samples.rend(), sections, state);
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

}  // namespace jointrom
