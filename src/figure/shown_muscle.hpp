#pragma once

/// \file
/// A muscle's envelope as figures show it. Private.

#include <jointrom/emg/activity.hpp>

#include <span>
#include <vector>

namespace jointrom {

inline constexpr std::size_t most_muscles = 4;

[[nodiscard]] std::span<const MuscleActivity> shown_muscles(std::span<const MuscleActivity> muscles);
/// "The first 4 of 6 muscles."; empty when all are shown.
[[nodiscard]] std::string muscles_left_out(std::span<const MuscleActivity> muscles);

/// In percent where the muscle's activity is, else in the channel's unit.
[[nodiscard]] std::vector<double> shown_envelope(const MuscleActivity& muscle);

}  // namespace jointrom
