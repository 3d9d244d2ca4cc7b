#pragma once

/// \file
/// How strong a muscle's electromyogram is over time. All of these take an electromyogram without offset.

#include <jointrom/core/units.hpp>
#include <jointrom/signal/zero_phase.hpp>

#include <span>
#include <vector>

namespace jointrom {

/// Absolute values.
[[nodiscard]] std::vector<double> rectified(std::span<const double> samples);

/// The linear envelope: the rectified electromyogram through a low-pass without delay.
///
/// Method: Butterworth of second order, forward and backward, 3.01 dB down at `cutoff` after both passes. What the
/// filter swings below zero is set to 0. It is called an envelope, never "integrated": its unit is that of the samples.
/// Missing samples: stay missing; the pieces between them are filtered one by one.
///
/// \param cutoff 3 to 10 Hz for the course of a movement (common practice), up to 50 Hz to find an onset (Hodges 1996)
/// \throws Failure usage "cutoff-too-high", "cutoff-not-positive" as butterworth_lowpass()
/// \par Reference P. W. Hodges and B. H. Bui 1996, Electroencephalogr Clin Neurophysiol 101:511
[[nodiscard]] std::vector<double> linear_envelope(std::span<const double> samples, Hertz cutoff, Hertz rate,
                                                  EdgeExtension edges = {});

/// The size of the Teager-Kaiser energy, |x(i)^2 - x(i-1) x(i+1)|: large where amplitude and frequency are, so that a
/// burst stands out from slow artefacts. The ends are those of their neighbours.
///
/// Missing samples: a value needs all three samples.
/// \return in squared units; missing for fewer than three samples
/// \par Reference J. F. Kaiser 1990, Proc IEEE ICASSP:381; X. Li, P. Zhou and A. S. Aruin 2007, Ann Biomed Eng 35:1532
[[nodiscard]] std::vector<double> teager_kaiser_energy(std::span<const double> samples);

}  // namespace jointrom
