#pragma once

/// \file
/// A joint angle and the muscles beside it in the European Data Format (EDF+), each at its own rate, with the phases of
/// the movement as annotations. Only where the library was built with libedf.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/movement/phases.hpp>
#include <jointrom/recording/recording.hpp>

#include <filesystem>
#include <span>

namespace jointrom {

/// Writes the file, whole or not at all: signals angle_deg, angle_u_deg and velocity_deg_s, then each channel of role
/// `emg`, from the start of the trace on; one annotation a phase. Same input, same bytes: the date is that which EDF+
/// gives to a recording without one.
///
/// Method: values have 16 bits from -E to E, with E the next 1, 2 or 5 times a power of ten. The last record is filled
/// up with the last value; an annotation says where the recording ends. Missing samples: EDF has none, so gaps are
/// refused.
///
/// \throws Failure usage "edf-gap", "edf-rate" (no record up to 60 s holds a whole number of samples of each rate),
///   "edf-unsupported" where libedf was not there at build time; cannot_create, cannot_write
/// \par Accuracy of a value: E / 65535, 0.003 deg for angles between -200 and 200 deg
/// \par Reference B. Kemp, J. Olivan, European data format 'plus', Clin. Neurophysiol. 114 (2003) 1755-1761.
void write_edf(const std::filesystem::path& path, const AngleTrace& trace, const Recording& recording,
               std::span<const Phase> phases);

}  // namespace jointrom
