#pragma once

/// \file
/// Turning points of plain samples, by hysteresis. Private to movement/, which gives them their meaning.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

struct ZigzagPoint {
    std::size_t sample;  ///< the middle one where several equal samples in a row share the extreme
    bool is_maximum;
};

/// Maxima and minima by turns: after each the samples go back by at least `threshold` before the next. The first and
/// the last point are known from one side only.
///
/// \return empty when the samples do not span `threshold`
/// \pre no sample is NaN; threshold > 0
[[nodiscard]] std::vector<ZigzagPoint> zigzag(std::span<const double> samples, double threshold);

/// How far each point stands out: from its value to the nearer of the two levels that have to be passed to get to a
/// more extreme point on either side, or to the end of the samples. For the first and last point the inner side alone
/// counts.
[[nodiscard]] std::vector<double> prominences(std::span<const double> samples, std::span<const ZigzagPoint> points);

}  // namespace jointrom
