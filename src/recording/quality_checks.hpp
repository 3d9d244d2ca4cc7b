#pragma once

/// \file
/// Single checks of the samples of one channel. Missing samples never take part in a check.

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace jointrom {

/// What the checks compare with. All but the extremes come from at most some thousand samples.
struct Scale {
    std::size_t count = 0;  ///< samples that are not missing
    double min = 0.0;
    double max = 0.0;
    double range = 0.0;       ///< of the middle 90 %
    double resolution = 0.0;  ///< smallest step between unequal neighbours; 0 when all are equal
    double noise_sd = 0.0;    ///< of one sample; 0 when too few to tell
    double fast_step = 0.0;   ///< exceeded by one step in twenty of those that are not zero

    [[nodiscard]] bool is_constant() const { return max <= min; }
    /// Whether noise keeps neighbours from being equal.
    [[nodiscard]] bool is_noisy() const { return resolution > 0.0 && noise_sd >= resolution; }
};

[[nodiscard]] Scale scale_of(std::span<const double> samples);

/// Equal samples in a row.
struct FlatRun {
    std::size_t first = 0;
    std::size_t length = 0;
};

/// The longest run of equal samples, not counting those at the value `except`.
[[nodiscard]] FlatRun longest_flat_run(std::span<const double> samples, double except);

struct Saturation {
    double level = 0.0;
    std::size_t runs = 0;
    std::size_t samples = 0;
    std::size_t first = 0;
};

/// Cut-off tops at `level`, the highest or lowest reading.
/// \param held samples for which a reading is repeated in the file, 1 when it is not
[[nodiscard]] std::optional<Saturation> find_saturation(std::span<const double> samples, const Scale& scale,
                                                        double level, std::size_t held);

/// Single samples that jump away from both neighbours and back; where the first is and how many there are.
struct Spikes {
    std::size_t count = 0;
    std::size_t first = 0;
};
[[nodiscard]] Spikes find_spikes(std::span<const double> samples, const Scale& scale, double rate_hz);

/// A value that seems to stand for missing samples.
struct SuspectValue {
    double value = 0.0;
    std::size_t count = 0;
    std::size_t first = 0;
};
[[nodiscard]] std::optional<SuspectValue> find_missing_code(std::span<const double> samples, const Scale& scale);
/// Zeros that are entered and left by jumps from values far off.
[[nodiscard]] std::optional<SuspectValue> find_dropouts_to_zero(std::span<const double> samples, const Scale& scale);

/// Jumps by a full turn: within 60 degrees of 360, or 90 % of the range and more in another unit.
[[nodiscard]] std::size_t count_full_turns(std::span<const double> samples, const Scale& scale,
                                           const std::string& unit);

/// Why readings do not look like their unit; empty when they do.
[[nodiscard]] std::string unit_doubt(std::span<const double> samples, const Scale& scale, const std::string& unit);

}  // namespace jointrom
