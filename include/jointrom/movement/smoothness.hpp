#pragma once

/// \file
/// How smooth one movement is, from its speed profile. Both figures are negative; nearer zero is smoother.

#include <jointrom/angle/angle_trace.hpp>

#include <limits>
#include <optional>
#include <span>
#include <string>

namespace jointrom {

/// Spectral arc length: the length of the normalised magnitude spectrum of the speed up to 10 Hz, negative. About -1.4
/// for a minimum-jerk movement of any size and duration, about -3 for two separate halves.
///
/// Method: spectrum of 2^(ceil(log2 n) + 4) points, divided by its largest value; bins up to 10 Hz, from the first to
/// the last that reaches 0.05; minus the sum of sqrt((df / band)^2 + dM^2). Above 1000 Hz samples are averaged in
/// blocks first. Missing samples: refused.
///
/// \param speed of one movement from rest to rest, in any unit
/// \return      missing (NaN) below 20 Hz, for fewer than 10 samples, or when the speed is zero
/// \par Accuracy 1e-9 of the same definition computed with NumPy 1.24.2
/// \par Reference S. Balasubramanian, A. Melendez-Calderon, A. Roby-Brami, E. Burdet 2015, J NeuroEng Rehabil 12:112
///      (parameters from memory)
[[nodiscard]] double spectral_arc_length(std::span<const double> speed, Hertz rate);

/// Log dimensionless jerk: -ln(T^3 / v_peak^2 * integral of (d2v/dt2)^2 dt). For a minimum-jerk movement
/// -ln(720 / 1.875^2) = -5.322. Sensitive to noise: only for filtered speeds.
///
/// Method: central differences twice, second-order at the ends; trapezium rule; T from the first to the last sample.
/// Missing samples: refused.
///
/// \return missing (NaN) for fewer than 10 samples, or when the jerk is zero
/// \par Reference S. Balasubramanian, A. Melendez-Calderon, E. Burdet 2012, IEEE Trans Biomed Eng 59:2126
[[nodiscard]] double log_dimensionless_jerk(std::span<const double> speed, Hertz rate);

struct Smoothness {
    double spectral_arc_length = std::numeric_limits<double>::quiet_NaN();
    double log_dimensionless_jerk = std::numeric_limits<double>::quiet_NaN();
};

/// Both figures for one movement of a trace. Neither means anything for a set of movements. A low-pass below 10 Hz
/// makes every movement look smoother: compare only under one cut-off.
[[nodiscard]] Smoothness movement_smoothness(const AngleTrace& trace, SampleSpan movement);

/// Why a trace does not allow smoothness for any movement in it; nothing when it does.
[[nodiscard]] std::optional<std::string> smoothness_obstacle(const AngleTrace& trace);

}  // namespace jointrom
