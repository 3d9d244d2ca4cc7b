#pragma once

/// \file
/// When a muscle is active: onsets and offsets in its envelope.

#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace jointrom {

/// Mean and standard deviation of an envelope at rest.
struct Baseline {
    double mean = 0.0;
    double sd = 0.0;  ///< with n - 1
    /// The level above which the muscle counts as active.
    [[nodiscard]] double threshold(double sd_count) const noexcept { return mean + sd_count * sd; }
};

/// Missing samples: skipped. \return nothing for fewer than two samples
[[nodiscard]] std::optional<Baseline> baseline_of(std::span<const double> envelope, SampleSpan rest);

/// What makes a sample above the threshold an onset.
enum class Confirmation {
    mean_of_window,  ///< the sample itself, and the mean of the window that it starts, lie above
    every_sample     ///< every sample of the window that it starts lies above: for smooth envelopes
};

/// The first sample from `from` on that is an onset.
///
/// Method: a threshold rule on the mean of a window alone would fire up to a window too early, as soon as the window
/// reaches into the burst; so the sample itself must lie above the threshold, too.
/// Missing samples: are no onset; they are left out of the mean of a window.
///
/// \param window samples, at least 1
/// \par Accuracy sample for sample the one that NumPy 1.24.2 finds, over 27 settings of cut-off, threshold and window
/// \par Reference P. W. Hodges and B. H. Bui 1996, Electroencephalogr Clin Neurophysiol 101:511 (cut-offs, thresholds
/// of
///      1 to 3 SD, windows of 20 to 100 ms)
[[nodiscard]] std::optional<std::size_t> find_onset(std::span<const double> envelope, double threshold,
                                                    std::size_t window, std::size_t from = 0,
                                                    Confirmation confirmation = Confirmation::mean_of_window);

/// Gaps shorter than `min_gap` samples are closed first, then bursts shorter than `min_length` are dropped.
[[nodiscard]] std::vector<SampleSpan> cleaned_bursts(std::vector<SampleSpan> bursts, std::size_t min_gap,
                                                     std::size_t min_length);

struct BurstOptions {
    Seconds window{0.05};     ///< that confirms an onset or offset; 20, 50, 100 ms in Hodges 1996
    Seconds min_gap{0.05};    ///< a shorter pause is none (common practice, no source)
    Seconds min_burst{0.05};  ///< a shorter burst is none (common practice, no source)
    Confirmation confirmation = Confirmation::mean_of_window;
};

/// Stretches in which the muscle is active.
///
/// Method: from an onset, as find_onset(), to the first sample that is not above the threshold and starts a window that
/// is not either. The start is then looked for once more by that rule with time turned round, from the highest sample
/// of the window that confirmed the onset: a sample of noise above the threshold, up to a window before the burst, is
/// no part of it. Then cleaned_bursts(). A burst that has not ended goes on to the end, or to a missing sample. A
/// window that reaches beyond the end is cut off.
[[nodiscard]] std::vector<SampleSpan> active_bursts(std::span<const double> envelope, Hertz rate, double threshold,
                                                    const BurstOptions& options = {});

}  // namespace jointrom
