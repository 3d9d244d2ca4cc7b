#pragma once

/// \file
/// The repetitions of a movement laid over each other on a common 0 to 100 %.

#include <jointrom/angle/angle_trace.hpp>
#include <jointrom/movement/repetitions.hpp>
#include <jointrom/signal/resample.hpp>

#include <cstddef>
#include <limits>
#include <optional>
#include <span>
#include <vector>

namespace jointrom {

struct EnsembleCurve {
    std::vector<std::vector<double>> curves_deg;                       ///< one per repetition, all of one length
    std::vector<double> mean_deg;                                      ///< at each point; empty without curves
    std::vector<double> sd_deg;                                        ///< n - 1; missing for a single curve
    double average_sd_deg = std::numeric_limits<double>::quiet_NaN();  ///< root of the mean square of sd_deg
    double cv_pct = std::numeric_limits<double>::quiet_NaN();          ///< Winter's: 100 average_sd / mean of |mean|
    std::optional<double> cmc;     ///< coefficient of multiple correlation within a session; none where it is not real
    std::vector<double> rmsd_deg;  ///< of each curve from the mean curve

    /// Part of the cycle at a point, 0 to 100.
    [[nodiscard]] double percent(std::size_t point) const {
        return 100.0 * static_cast<double>(point) / static_cast<double>(mean_deg.size() - 1);
    }
};

/// Statistics of curves that are normalised to one length.
///
/// Method: with M curves of F points, CMC^2 = 1 - [sum (y - mean of the point)^2 / (F (M - 1))] / [sum (y - grand
/// mean)^2 / (M F - 1)]. It grows with the range of motion and can be undefined: it describes, it does not prove
/// reliability (Roislien et al. 2012, J Biomech 45:2047, volume and page from memory). Missing samples: a point that is
/// missing in one curve is missing in the results; cv, cmc, rmsd then too.
///
/// \throws Failure usage "curves-unequal" when the curves differ in length or have fewer than two points
/// \par Accuracy 1e-9 relative of NumPy 1.24.2
/// \par Reference D. A. Winter 1984, Hum Mov Sci 3:51 (variability); M. P. Kadaba et al. 1989, J Orthop Res 7:849
/// (CMC);
///      both from memory
[[nodiscard]] EnsembleCurve ensemble_of(std::vector<std::vector<double>> curves_deg);

/// The repetitions from start to end, both included, each at `points` equal parts of its own duration.
///
/// \param points at least 2; 101 for whole percents
[[nodiscard]] EnsembleCurve ensemble_curve(const AngleTrace& trace, std::span<const Repetition> repetitions,
                                           std::size_t points = 101, Interpolation method = Interpolation::linear);

}  // namespace jointrom
