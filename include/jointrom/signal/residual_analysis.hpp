#pragma once

/// \file
/// Choosing the cut-off of a low-pass from the recording itself.

#include <jointrom/core/units.hpp>
#include <jointrom/signal/zero_phase.hpp>

#include <optional>
#include <span>
#include <vector>

namespace jointrom {

struct ResidualOptions {
    /// Upper end of the cut-offs tried. Unset: 25 Hz, above which joints do not move, or a quarter of a lower rate.
    Hertz highest = Hertz();
    int order = 2;             ///< of one pass, as lowpass_zero_phase()
    EdgeExtension edges = {};  ///< as zero_phase()
};

struct ResidualAnalysis {
    std::vector<double> cutoff_hz;     ///< cut-offs tried: 4, 6, ... 100 % of the highest
    std::vector<double> rms_residual;  ///< root mean square of what each took away, in the unit of the samples
    double slope = 0.0;                ///< of the line, in that unit per hertz
    double noise_rms = 0.0;            ///< the line at 0 Hz: noise of a sample, in that unit
    std::optional<Hertz> cutoff;       ///< the choice; nothing when the recording does not allow one
};

/// Residual of a zero-phase low-pass as a function of its cut-off, and the cut-off at which it takes away as much as
/// the noise alone.
///
/// Method: a straight line is fitted to the residual between 56 and 96 % of the highest cut-off, where only noise
/// should be left (14 to 24 Hz of 25); its value at 0 Hz estimates the noise. The chosen cut-off is the first at which
/// the residual comes down to that value, linearly between the cut-offs tried. None is chosen when the residual is not
/// straight there (off the line by more than 5 % of the noise: hardly any noise, or a movement that reaches into the
/// band), when it starts below that value (no movement), or comes down to it only inside the band.
/// Missing samples: pieces between gaps are filtered alone, their residuals taken together.
///
/// \param rate sampling rate, above 0
/// \throws Failure usage "cutoff-too-high" when options.highest does not lie below rate / 2
/// \par Accuracy 1e-9 relative of the same analysis with SciPy 1.10.1
/// \par Complexity 49 filterings of the samples
/// \par Reference D. A. Winter, Biomechanics and Motor Control of Human Movement, 4th ed. 2009, chapter 3; the limits
///      of the line and the 5 % are our own choice
[[nodiscard]] ResidualAnalysis residual_analysis(std::span<const double> samples, Hertz rate,
                                                 ResidualOptions options = {});

}  // namespace jointrom
