#pragma once

/// \file
/// Filtering without delay: once forward, once backward. What is assumed beyond the ends is an argument.

#include <jointrom/signal/butterworth.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace jointrom {

/// What a zero-phase filter assumes beyond the ends of the samples.
enum class EdgeRule {
    odd_reflection,   ///< turned about the end sample, 2 x(0) - x(i): keeps level and slope, holds on to the end sample
    even_reflection,  ///< mirrored: keeps the level, flattens the slope
    repeat_end,       ///< the end sample goes on for ever
    none,             ///< nothing is added; either pass starts in the steady state of its first sample
    gustafsson        ///< nothing is added; the states at both ends make forward-backward equal backward-forward.
                      ///< Fewer than 4 samples per section cannot settle them: those are filtered by `none`.
};

struct EdgeExtension {
    EdgeRule rule = EdgeRule::odd_reflection;
    /// Samples added at either end by the first three rules; where there are fewer samples than that, reflection goes
    /// on about the other end. Unset: settling_samples() of the filter, so the same time at any rate. (SciPy's
    /// sosfiltfilt adds 9 for one section of second order, 15 for two.)
    std::optional<std::size_t> pad_samples = std::nullopt;
};

/// `samples` filtered forward and backward: no delay, the gain of the filter squared.
///
/// Method: the ends are extended, each pass starts in the steady state of its first sample, the extension is cut off.
/// Missing samples: refused (pass the pieces between gaps, finite_runs.hpp).
///
/// \return as many samples as given, in the same unit; a single sample gives itself times the squared gain at 0 Hz
/// \pre no sample is NaN
/// \par Accuracy 1e-12 of sosfiltfilt of SciPy 1.10.1 for the same sections and pad; Gustafsson's rule 1e-9
/// \par Complexity O(samples times sections); one array of the samples' size (Gustafsson: 4 per section)
/// \par Reference F. Gustafsson 1996, IEEE Trans Signal Process 44:988
[[nodiscard]] std::vector<double> zero_phase(std::span<const double> samples, const Sections& sections,
                                             EdgeExtension edges = {});

/// The same where the samples are.
void zero_phase_in_place(std::span<double> samples, const Sections& sections, EdgeExtension edges = {});

/// Butterworth low-pass without delay, 3.01 dB down at `cutoff` after both passes (design_cutoff()).
///
/// Missing samples: refused, as zero_phase().
/// \param order poles of one pass; 2 is what the movement literature calls a fourth-order zero-lag filter
/// \throws Failure usage as butterworth_lowpass()
[[nodiscard]] std::vector<double> lowpass_zero_phase(std::span<const double> samples, Hertz cutoff, Hertz rate,
                                                     int order = 2, EdgeExtension edges = {});

}  // namespace jointrom
