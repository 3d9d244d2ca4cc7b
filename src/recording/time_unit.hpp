#pragma once

/// \file
/// The unit of a column of times.

#include <jointrom/core/units.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace jointrom {

struct TimeUnit {
    std::string_view symbol;  ///< "s", "ms", "us", "min", "h", "d"
    std::string_view name;    ///< in words, "milliseconds"
    double seconds;           ///< in one unit
};

/// The unit that a heading states; nothing for any other text.
[[nodiscard]] std::optional<TimeUnit> time_unit_named(std::string_view symbol);

struct AssumedTimeUnit {
    TimeUnit unit;
    bool is_plain;  ///< no other unit comes near
};

/// The unit in which stamps make the most plausible recording.
///
/// Method: seconds, milliseconds, microseconds and days (spreadsheets) are compared by how far the rate would lie
/// outside 10 to 2000 Hz and the duration outside 3 s to 30 min, in decades, the duration counted 1.5 times; anything
/// but seconds starts 0.3 decades behind. Common practice, no source. A stated rate settles it instead.
/// \param step     median step between stamps, in the unit that is looked for, > 0
/// \param duration of the recording without its gaps, in the same unit
/// \param stated   rate that the user gave, unset when none
[[nodiscard]] AssumedTimeUnit plausible_time_unit(double step, double duration, Hertz stated);

}  // namespace jointrom
