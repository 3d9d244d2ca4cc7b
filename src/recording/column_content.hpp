#pragma once

/// \file
/// What the numbers in a column look like, whatever its heading says. Missing values are skipped throughout.

#include <cstddef>
#include <span>

namespace jointrom {

/// How the values of a column go up and down.
struct Steps {
    std::size_t values = 0;
    std::size_t rises = 0;
    std::size_t falls = 0;
    std::size_t ones = 0;  ///< steps of exactly one between whole numbers

    /// Rises throughout, but for a few falls such as a clock that starts again.
    [[nodiscard]] bool is_rising() const { return rises > 0 && rises >= 20 * falls; }
    /// Nearly every step is a rise, over more steps than any movement would.
    [[nodiscard]] bool rises_all_along() const { return rises >= 50 && 50 * rises >= 49 * (values - 1); }
    /// Counts 1, 2, 3, ...
    [[nodiscard]] bool is_counting() const { return is_rising() && 50 * ones >= 49 * (values - 1); }
};

[[nodiscard]] Steps steps_of(std::span<const double> values);

/// Whether four steps of five are within 30 % of the median one. \pre steps_of(values).is_rising()
[[nodiscard]] bool has_even_steps(std::span<const double> values);

struct Slowness {
    double ratio;  ///< von Neumann's: squared steps over squared deviations; 2 for white noise, near 0 when slow
    double mean_over_sd;
    std::size_t distinct_values;  ///< counted up to 9
};

/// How slowly values change. \pre at least one value
[[nodiscard]] Slowness slowness_of(std::span<const double> values);

/// What the middle 90 % of the values span; 0 without values.
[[nodiscard]] double middle_range(std::span<const double> values);

}  // namespace jointrom
