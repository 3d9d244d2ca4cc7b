#pragma once

/// \file
/// Turning points of a signal: local maxima and minima with their prominence, and how wide they are.

#include <jointrom/core/sample_span.hpp>

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace jointrom {

enum class Turn { maximum, minimum };

struct Extremum {
    Turn turn;
    std::size_t sample;      ///< where; of a plateau its middle, the earlier of two middle samples
    double value;            ///< in the unit of the signal
    double prominence;       ///< height over the higher of the two bases (depth, for a minimum); above 0
    std::size_t left_base;   ///< farthest from the extremum's value, between it and a more extreme sample on its left
    std::size_t right_base;  ///< the same on its right; of equal samples the one nearest to the extremum
    SampleSpan plateau;      ///< the equal samples that it consists of
};

struct ExtremumOptions {
    double least_prominence = 0.0;
    /// What a maximum must at least reach, a minimum must at most have.
    std::optional<double> level = std::nullopt;
    /// Samples between neighbours; of two that are closer the less extreme is left out, of equals the later.
    std::size_t least_distance = 1;
};

/// Samples, or plateaus of equal samples, that both neighbours fall short of; in order of time.
///
/// Method: the prominence is found by walking outward until a sample is more extreme or the signal ends; the lowest
/// sample passed (for a maximum) is the base of that side. The options apply in the order level, prominence, distance.
/// The first and the last sample, and a plateau that reaches them, are no extrema.
/// Missing samples: skipped, so the samples beside a gap count as neighbours; what the gap hides is not seen.
///
/// \par Accuracy the extrema, bases and prominences of SciPy 1.10.1 find_peaks
/// \par Complexity O(n + k log k) for n samples and k extrema
[[nodiscard]] std::vector<Extremum> local_maxima(std::span<const double> samples, ExtremumOptions options = {});
[[nodiscard]] std::vector<Extremum> local_minima(std::span<const double> samples, ExtremumOptions options = {});

struct ExtremumWidth {
    double level;  ///< at which the width is taken, in the unit of the signal
    double left;   ///< crossing of that level before the extremum, in samples, interpolated linearly
    double right;  ///< crossing after it

    [[nodiscard]] double samples() const noexcept { return right - left; }
};

/// Width of an extremum at a share of its prominence below its top (above its bottom), e.g. 0.5 for half way.
///
/// Missing samples: a gap before the crossing makes that crossing missing.
/// \param samples  the signal that the extremum was found in
/// \param relative 0 to 1
/// \par Accuracy 1e-12 of SciPy 1.10.1 peak_widths
[[nodiscard]] ExtremumWidth extremum_width(std::span<const double> samples, const Extremum& extremum,
                                           double relative = 0.5);

}  // namespace jointrom
