#pragma once

/// \file
/// What a column's heading says: a quantity and its unit.

#include <optional>
#include <string>
#include <string_view>

namespace jointrom {

struct Heading {
    std::string quantity;  ///< the heading without its unit, e.g. "Knee angle"
    std::string unit;      ///< normalised; empty when none was recognised
    friend bool operator==(const Heading&, const Heading&) = default;
};

/// Takes a heading apart: "Knee angle (deg)", "Angle [°]", "time/s", "Angle, deg", "EMG1_mV", "Temps (ms)", "Angle°".
///
/// Method: the unit is looked for in brackets at the end, then behind the last '/' or ',', then behind the last '_',
/// then as the last word. Outside brackets, words that could mean something else are units only of a time: "min" and
/// a single "s" or "h". Text in brackets that is no unit stays part of the quantity.
[[nodiscard]] Heading split_heading(std::string_view heading);

/// The usual symbol of a unit that stands alone, in brackets or not: deg, rad, deg/s, rad/s, V, mV, uV, s, ms, us, min,
/// h, Hz, counts, %, N, Nm, g, m/s2, mm, cm, m, kg. Names in several languages are known ("Grad", "sec", "Volt").
[[nodiscard]] std::optional<std::string> normalised_unit(std::string_view text);

/// Whether a heading or quantity names the time: "Time (s)", "t", "Zeit", "Temps", "elapsed", "Timestamp" and others.
[[nodiscard]] bool names_time(std::string_view heading);

}  // namespace jointrom
