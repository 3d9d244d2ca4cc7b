#pragma once

/// \file
/// Readings that are cut off at the end of the sensor's or the logger's range.

#include "quality_checks.hpp"

#include <cstddef>
#include <optional>
#include <span>

namespace jointrom {

struct Saturation {
    double level = 0.0;
    std::size_t runs = 0;
    std::size_t samples = 0;
    std::size_t first = 0;
};

/// Cut-off tops at `level`, the highest or lowest reading.
///
/// Method: a run of equal samples, three at least, is cut off when the movement before and behind it, going on to turn
/// within the run (at most 0.3 s), would have gone beyond the level by 2 % of the range, five steps of the resolution
/// and twice the noise. Not if the run begins or ends the recording, or if the channel lies as still elsewhere. Below
/// 20 Hz a joint may stop from one sample to the next, so there the channel must also rest elsewhere with noise. In a
/// noisy channel, eight equal samples are enough where there are no more than three elsewhere. A value of all ones in
/// binary (255, 1023, ...) is the end of a converter: three samples are enough. Thresholds from trials with simulated
/// movements.
/// \param held samples for which a reading is repeated in the file, 1 when it is not
[[nodiscard]] std::optional<Saturation> find_saturation(std::span<const double> samples, const Scale& scale,
                                                        double level, std::size_t held);

}  // namespace jointrom
