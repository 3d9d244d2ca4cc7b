#pragma once

/// \file
/// Which samples of a long series have to be drawn so that the line looks as if all were.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// The samples to draw of an evenly sampled series that is as wide as `columns` columns of pixels.
///
/// Method: of the samples in each column the first, the last, the least and the greatest (M4). All samples when there
/// are no more than four a column. Missing samples: where they leave out a whole column's width (or, when all samples
/// are drawn, at all) one missing sample stands among those returned, where the line has to break.
///
/// \return indices, ascending; at most 5 * columns
/// \pre columns >= 1
/// \par Complexity O(n)
/// \par Reference U. Jugel et al. 2014, M4: a visualization-oriented time series data aggregation, PVLDB 7:797
[[nodiscard]] std::vector<std::size_t> drawn_samples(std::span<const double> values, std::size_t columns);

/// The points to draw of a curve in the plane, given in pixels.
///
/// Method: a point is left out while it is nearer than `tolerance_px` to the last one kept, or missing after a missing
/// one; the last is kept. Every point left out lies within the tolerance of one that is drawn.
/// \pre as many y as x
[[nodiscard]] std::vector<std::size_t> drawn_points(std::span<const double> x_px, std::span<const double> y_px,
                                                    double tolerance_px);

}  // namespace jointrom
