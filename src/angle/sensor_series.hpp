#pragma once

/// \file
/// The first half of the way from reading to angle: degrees of the sensor, even in time, repaired, not yet zeroed.

#include "reading_repair.hpp"

#include <jointrom/angle/prepare_angle.hpp>

namespace jointrom {

/// The channel's samples are used up.
/// \throws Failure as prepare_angle()
[[nodiscard]] EvenSeries sensor_series(Channel&& channel, const PreparationOptions& options,
                                       std::vector<std::string>& steps, Findings& findings);

/// The samples of `window`, all of them when it is not set. \throws Failure usage "window-empty"
[[nodiscard]] SampleSpan window_span(const EvenSeries& series, TimeWindow window);

}  // namespace jointrom
