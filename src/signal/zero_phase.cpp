#include <jointrom/signal/zero_phase.hpp>

#include "gustafsson.hpp"

#include <jointrom/signal/section_cascade.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

/// The sample that a rule puts `distance` beyond an end whose sample is `end`; `inside` lies as far within.
double extended(EdgeRule rule, double end, double inside) {
    switch (rule) {
    case EdgeRule::odd_reflection:
        return 2.0 * end - inside;
    case EdgeRule::even_reflection:
        return inside;
    default:
        return end;
    }
}

/// Both extensions, in the order of time.
struct Padding {
    std::vector<double> before;
    std::vector<double> after;
};

Padding padding(std::span<const double> x, EdgeRule rule, std::size_t pad) {
    const std::size_t length = x.size() - 1;  // from end to end
    Padding result{std::vector<double>(pad), std::vector<double>(pad)};
    for (std::size_t i = 1; i <= pad; ++i) {
        // Farther than the other end, what is reflected is that end's extension.
        const double inside_first = i <= length ? x[i] : result.after[i - length - 1];
        const double inside_last = i <= length ? x[length - i] : result.before[pad - (i - length)];
        result.before[pad - i] = extended(rule, x.front(), inside_first);
        result.after[i - 1] = extended(rule, x.back(), inside_last);
    }
    return result;
}

std::size_t pad_count(std::size_t sample_count, const Sections& sections, const EdgeExtension& edges) {
    const bool none = edges.rule == EdgeRule::none || edges.rule == EdgeRule::gustafsson;
    if (none || sample_count == 1) {
        return 0;
    }
    // Beyond a million samples, or as many as there are, no extension tells anything more.
    const std::size_t most = std::max(sample_count, std::size_t{1} << 20U);
    return edges.pad_samples ? *edges.pad_samples : std::min(settling_samples(sections), most);
}

}  // namespace

void zero_phase_in_place(std::span<double> samples, const Sections& sections, EdgeExtension edges) {
    assert(std::ranges::none_of(samples, [](double x) { return std::isnan(x); }));
    if (samples.empty()) {
        return;
    }
    if (edges.rule == EdgeRule::gustafsson && samples.size() >= 4 * sections.size()) {
        std::ranges::copy(gustafsson_zero_phase(samples, sections), samples.begin());
        return;
    }
    auto [before, after] = padding(samples, edges.rule, pad_count(samples.size(), sections, edges));
    // The padding stays apart from the samples: what a pass makes of it is needed only as far as the other pass reads
    // it.
    std::vector<SectionState> state = steady_state(sections, before.empty() ? samples.front() : before.front());
    run_forward(before, sections, state);
    run_forward(samples, sections, state);
    run_forward(after, sections, state);
    state = steady_state(sections, after.empty() ? samples.back() : after.back());
    run_backward(after, sections, state);
    run_backward(samples, sections, state);
}

std::vector<double> zero_phase(std::span<const double> samples, const Sections& sections, EdgeExtension edges) {
    std::vector<double> result(samples.begin(), samples.end());
    zero_phase_in_place(result, sections, edges);
    return result;
}

std::vector<double> lowpass_zero_phase(std::span<const double> samples, Hertz cutoff, Hertz rate, int order,
                                       EdgeExtension edges) {
    constexpr int passes = 2;
    return zero_phase(samples, butterworth_lowpass(order, design_cutoff(cutoff, order, passes, rate), rate), edges);
}

}  // namespace jointrom
