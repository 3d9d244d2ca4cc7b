#pragma once

/// \file
/// Design of recursive filters as a cascade of second-order sections: Butterworth low-pass, high-pass, band-pass and
/// band-stop, and a notch. Applying them is in section_cascade.hpp and zero_phase.hpp.

#include <jointrom/core/units.hpp>

#include <complex>
#include <cstddef>
#include <vector>

namespace jointrom {

/// H(z) = (b0 + b1/z + b2/z^2) / (1 + a1/z + a2/z^2). A first-order section has b2 = a2 = 0.
struct Section {
    double b0 = 1.0;
    double b1 = 0.0;
    double b2 = 0.0;
    double a1 = 0.0;
    double a2 = 0.0;
};

/// Sections applied one after another, the most damped first.
using Sections = std::vector<Section>;

/// Butterworth low-pass, 3.01 dB down at `cutoff` in a single pass.
///
/// Method: bilinear transform with the cut-off pre-warped, each section with gain 1 at 0 Hz.
///
/// \param order  number of poles, at least 1
/// \param cutoff above 0 and below half of `rate`
/// \param rate   sampling rate
/// \throws Failure usage "cutoff-too-high" when cutoff >= rate / 2, "cutoff-not-positive" when cutoff <= 0 or missing;
///         the same for the designs below, with either edge
/// \par Accuracy frequency response to 1e-12 of SciPy 1.10.1
/// \par Reference S. Butterworth 1930, Experimental Wireless 7:536; bilinear transform as in any text on digital
/// filters
[[nodiscard]] Sections butterworth_lowpass(int order, Hertz cutoff, Hertz rate);

/// Butterworth high-pass, 3.01 dB down at `cutoff` in a single pass; gain 1 at half of `rate`.
[[nodiscard]] Sections butterworth_highpass(int order, Hertz cutoff, Hertz rate);

/// Butterworth band-pass, 3.01 dB down at both edges in a single pass.
///
/// \param order_per_edge poles per edge: the filter has twice as many, so 2 makes what some call a 4th-order band-pass
/// \throws Failure usage "band-edges-reversed" when low >= high
[[nodiscard]] Sections butterworth_bandpass(int order_per_edge, Hertz low, Hertz high, Hertz rate);

/// Butterworth band-stop, 3.01 dB down at both edges in a single pass; gain 1 at 0 Hz. Arguments as for the band-pass.
[[nodiscard]] Sections butterworth_bandstop(int order_per_edge, Hertz low, Hertz high, Hertz rate);

/// Notch that removes `centre`, e.g. mains hum; its stop band is centre / q wide between the points 3.01 dB down.
///
/// \param q quality factor, above 0; 30 is common for mains
[[nodiscard]] Sections notch(Hertz centre, double q, Hertz rate);

/// The cut-off to design a low-pass at, so that `passes` passes of it together are 3.01 dB down at `wanted`.
///
/// Method: tan(pi wanted / rate) / (2^(1/passes) - 1)^(1/(2 order)) is the tangent of the result: the correction is
/// made on the warped frequency, so it is exact at any ratio of cut-off to rate.
///
/// \return above `wanted`, below rate / 2
/// \throws Failure usage as butterworth_lowpass()
/// \par Reference D. A. Winter, Biomechanics and Motor Control of Human Movement, 4th ed. 2009, p. 69; D. G. E.
/// Robertson
///      and J. J. Dowling 2003, J Electromyogr Kinesiol 13:569
[[nodiscard]] Hertz design_cutoff(Hertz wanted, int order, int passes, Hertz rate);

/// The same for a high-pass: the result lies below `wanted`.
[[nodiscard]] Hertz highpass_design_cutoff(Hertz wanted, int order, int passes, Hertz rate);

/// Gain and phase of one pass at `frequency`.
[[nodiscard]] std::complex<double> frequency_response(const Sections& sections, Hertz frequency, Hertz rate);

/// Samples until the slowest part of the impulse response has decayed to `residue` of its start: the number of samples
/// near an edge that depend on what is assumed beyond it. 0 for a filter without poles, 1e15 for one that never
/// settles.
///
/// \pre 0 < residue < 1
[[nodiscard]] std::size_t settling_samples(const Sections& sections, double residue = 1e-3);

}  // namespace jointrom
