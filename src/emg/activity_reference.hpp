#pragma once

/// \file
/// What a muscle's activity is a percentage of. Private.

#include <jointrom/emg/activity.hpp>

namespace jointrom {

/// \throws Failure usage "mvc-invalid", "muscle-unknown"
void check_maxima(const ActivityResult& result, std::span<const MuscleMaximum> maxima);

/// Fills in unit and reference of a muscle. \param measured the part of its signal that is measured
/// \param findings mvc-exceeded \throws Failure usage "mvc-missing"
void find_reference(const ActivityOptions& options, SampleSpan measured, MuscleActivity& muscle, Findings& findings);

}  // namespace jointrom
