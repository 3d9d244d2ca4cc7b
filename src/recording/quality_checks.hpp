#pragma once

/// \file
/// Single checks of the samples of one channel. Missing samples never take part in a check.

#include <jointrom/recording/repeated_readings.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// Equal samples in a row.
struct FlatRun {
    std::size_t first = 0;
    std::size_t length = 0;
};

/// The highest or lowest value.
struct Extreme {
    double value = 0.0;
    double next = 0.0;  ///< the value next to it, further in
    std::size_t count = 0;
    std::size_t first = 0;
};

/// What the checks compare with, found in one pass. Spreads come from at most some thousand samples.
struct Scale {
    std::size_t count = 0;    ///< samples that are not missing
    std::size_t zeros = 0;    ///< samples that are exactly 0
    std::size_t repeats = 0;  ///< samples that equal the one before
    Extreme low;
    Extreme high;
    double min = 0.0;
    double max = 0.0;
    FlatRun longest_run;
    double range = 0.0;       ///< of the middle 90 %
    double resolution = 0.0;  ///< smallest step between unequal neighbours; 0 when all are equal
    double noise_sd = 0.0;    ///< of one sample; 0 when too few to tell
    double fast_step = 0.0;   ///< exceeded by one step in twenty of those that are not zero

    double rate_hz = 0.0;

    [[nodiscard]] bool is_constant() const { return max <= min; }
    /// Whether noise keeps neighbours from being equal. Below 50 Hz the movement itself looks like noise.
    [[nodiscard]] bool is_noisy() const {
        return resolution > 0.0 && rate_hz >= 50.0 && noise_sd >= resolution && noise_sd >= 5e-4 * (max - min);
    }
};

[[nodiscard]] Scale scale_of(std::span<const double> samples, double rate_hz);

/// find_repeated_readings() of samples whose scale is known.
[[nodiscard]] std::optional<RepeatedReadings> find_repeated_readings(std::span<const double> samples,
                                                                     const Scale& scale);

/// The longest run of equal samples, not counting those at the value `except`.
[[nodiscard]] FlatRun longest_flat_run(std::span<const double> samples, double except);

/// Single samples that jump away from both neighbours and back; where the first is and how many there are.
struct Spikes {
    std::size_t count = 0;
    std::size_t first = 0;
};
[[nodiscard]] Spikes count_spikes(std::span<const double> samples, const Scale& scale);

/// A value that seems to stand for missing samples.
struct SuspectValue {
    double value = 0.0;
    std::size_t count = 0;
    std::size_t first = 0;
};
/// The highest or lowest value, if it is repeated, lies further off the others than these are spread, and is at least
/// twice as large as any of them.
[[nodiscard]] std::optional<SuspectValue> find_missing_code(const Scale& scale);
/// Zeros that are entered and left by jumps from values far off.
[[nodiscard]] std::optional<SuspectValue> find_dropouts_to_zero(std::span<const double> samples, const Scale& scale);

/// Jumps by a full turn: within 60 degrees of 360, or 90 % of the range and more in another unit.
[[nodiscard]] std::size_t count_full_turns(std::span<const double> samples, const Scale& scale,
                                           const std::string& unit);

/// Why readings do not look like their unit; empty when they do.
[[nodiscard]] std::string unit_doubt(std::span<const double> samples, const Scale& scale, const std::string& unit);

}  // namespace jointrom
