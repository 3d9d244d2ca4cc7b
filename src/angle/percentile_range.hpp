#pragma once

/// \file
/// The range of a reading without its odd samples.

#include <jointrom/core/units.hpp>

#include <span>
#include <utility>

namespace jointrom {

/// The 1st and 99th percentile (nearest rank) of the samples that are not missing; unset when all are.
[[nodiscard]] std::pair<Degrees, Degrees> percentile_range(std::span<const double> angle_deg);

}  // namespace jointrom
