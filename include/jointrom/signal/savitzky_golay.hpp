#pragma once

/// \file
/// Smoothing and differentiating by fitting a polynomial to a moving window.

#include <jointrom/core/units.hpp>

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

struct SavitzkyGolay {
    std::size_t window;          ///< samples in the window, odd
    std::size_t degree;          ///< of the polynomial, below `window`
    std::size_t derivative = 0;  ///< which derivative, 0 for smoothing; at most `degree`
};

/// Weights of the window's samples, first to last, that give the polynomial's value (derivative) at its middle sample,
/// per sample interval to the power of the derivative.
///
/// \par Accuracy 1e-12 of the integer tables of the reference and of SciPy 1.10.1
/// \par Reference A. Savitzky and M. J. E. Golay 1964, Anal Chem 36:1627
[[nodiscard]] std::vector<double> savitzky_golay_weights(const SavitzkyGolay& filter);

/// `samples` smoothed, or their derivative in the unit of `samples` per second to that power.
///
/// Method: each sample is replaced by the value, or derivative, of the least-squares polynomial of the window around
/// it; at the ends the polynomial of the first or last whole window is used. Missing samples: pieces between gaps are
/// treated alone; one that is shorter than the window gets the longest odd window that fits, or is missing when that
/// does not exceed the degree.
///
/// \param rate sampling rate, above 0
/// \return     as many values as samples
/// \par Accuracy 1e-9 relative of savgol_filter of SciPy 1.10.1
[[nodiscard]] std::vector<double> savitzky_golay(std::span<const double> samples, const SavitzkyGolay& filter,
                                                 Hertz rate);

}  // namespace jointrom
