#pragma once

/// \file
/// How noisy a sample is, judged from the recording itself.

#include <span>

namespace jointrom {

/// Standard deviation of the noise of one sample, from a signal that may move.
///
/// Method: third differences x(i) - 3 x(i+1) + 3 x(i+2) - x(i+3) remove any motion that is a parabola over four
/// samples; of white noise with standard deviation s they have s sqrt(20). That is taken from the median of their
/// absolute values (times 1.4826, as for Gaussian noise), so that up to half of them may hold jumps or spikes. The
/// noise is assumed to be white: what a smoothing logger let through is seen too small, vibration below a quarter of
/// the sampling rate hardly at all. When most samples equal their neighbours (coarse resolution) the result is 0, and
/// the resolution is the larger uncertainty.
/// Missing samples: differences that reach into a gap are left out.
///
/// \return in the unit of `samples`; missing (NaN) from fewer than 10 differences
/// \par Accuracy statistical: with n samples about 1.5 / sqrt(n) of the value
/// \par Reference T. Gasser, L. Sroka and C. Jennen-Steinmetz 1986, Biometrika 73:625 (variance from differences);
///      P. J. Rousseeuw and C. Croux 1993, J Am Stat Assoc 88:1273 (1.4826 times the median absolute value)
[[nodiscard]] double noise_sd(std::span<const double> samples);

}  // namespace jointrom
