#pragma once

/// \file
/// Functions whose last digit differs between C libraries, from the four basic operations alone.

namespace jointrom {

/// \pre x > 0 and normal \par Accuracy 1e-15 relative to the larger of 1 and the result
[[nodiscard]] double portable_log(double x) noexcept;

/// The sine of so many full turns. \par Accuracy 1e-14
[[nodiscard]] double sine_of_turns(double turns) noexcept;

}  // namespace jointrom
