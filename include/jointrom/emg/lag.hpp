#pragma once

/// \file
/// By how much one signal follows another.

#include <jointrom/core/units.hpp>

#include <optional>
#include <span>
#include <vector>

namespace jointrom {

struct Lag {
    Seconds lag;         ///< positive: the second signal comes later
    double correlation;  ///< at that lag, -1 to 1
};

enum class LagSign {
    either,    ///< the strongest correlation, whichever sign
    positive,  ///< both rise together
    negative   ///< one rises while the other falls
};

/// The lag at which two signals correlate most.
///
/// Method: at each lag, Pearson's correlation of the samples that overlap, with their own means and standard
/// deviations; a parabola through the largest value and its neighbours. The usual estimate divides by the full number
/// of samples at every lag, which lowers the correlation as the overlap shrinks and so pulls the lag towards 0: by 0.7
/// samples on a true lag of 12 in 101 samples (NumPy 1.24.2). Products come from Fourier transforms, the rest from sums
/// up to each sample, after each signal's mean was taken off. Missing samples: pairs with one are left out.
///
/// \param longest lags up to this are tried, but none that leaves fewer than half of the samples overlapping
/// \return nothing when the correlation is largest at the end of the lags tried, or a signal is constant
/// \pre a.size() == b.size()
/// \par Complexity O(samples log lags + lags times gaps)
[[nodiscard]] std::optional<Lag> find_lag(std::span<const double> a, std::span<const double> b, Hertz rate,
                                          Seconds longest, LagSign sign = LagSign::either);

/// find_lag() of several signals behind the same one, which saves work.
[[nodiscard]] std::vector<std::optional<Lag>> find_lags(std::span<const double> a,
                                                        std::span<const std::span<const double>> others, Hertz rate,
                                                        Seconds longest, LagSign sign = LagSign::either);

}  // namespace jointrom
