#pragma once

/// \file
/// Running a filter over samples in one direction. The operations are those of the transposed direct form II in their
/// textbook order, without fused multiply-add, so results are the same to the last bit on every machine.

#include <jointrom/signal/butterworth.hpp>

#include <span>
#include <vector>

namespace jointrom {

/// What one section remembers between samples.
struct SectionState {
    double s1 = 0.0;
    double s2 = 0.0;
};

/// The state after an endless constant input of `level`, one entry per section: a start without transient.
[[nodiscard]] std::vector<SectionState> steady_state(const Sections& sections, double level);

/// Filters `samples` in place from first to last, continuing from `state`, which is left as it is after the last one.
///
/// Missing samples: refused; a NaN would spoil everything after it.
/// \pre state.size() == sections.size()
/// \par Complexity O(samples times sections), no allocation
void run_forward(std::span<double> samples, const Sections& sections, std::span<SectionState> state);

/// The same from last to first.
void run_backward(std::span<double> samples, const Sections& sections, std::span<SectionState> state);

/// `samples` filtered in one direction, which delays them; starts in the steady state of the first sample.
///
/// Missing samples: refused (pass the pieces between gaps, finite_runs.hpp).
[[nodiscard]] std::vector<double> single_pass(std::span<const double> samples, const Sections& sections);

/// single_pass() of two series, where they are. Both together take hardly longer than one: a sample waits for the one
/// before it in its own series only. \pre a.size() == b.size()
void single_passes_in_place(std::span<double> a, std::span<double> b, const Sections& sections);

}  // namespace jointrom
