#pragma once

/// \file
/// The sampling rate as a logger writes it above its table.

#include <jointrom/core/units.hpp>

#include <optional>
#include <span>
#include <string>

namespace jointrom {

/// A rate that the text of a file states, and the line that says so.
struct StatedRate {
    Hertz rate;
    std::string line;
};

/// The one sampling rate that the lines above a table state.
///
/// Method: a line counts when it gives samples per second ("1000 samples per second", "200 S/s"), or names a rate or
/// frequency of sampling ("Sample rate: 200 Hz", "Abtastrate;1 kHz") or an interval ("Interval = 0.005 s"; without a
/// unit, below 1 it is seconds, else milliseconds). Lines about filters and mains do not count.
/// \return nothing when no line states a rate, or lines state different ones
[[nodiscard]] std::optional<StatedRate> find_stated_rate(std::span<const std::string> lines);

}  // namespace jointrom
