#pragma once

/// \file
/// How much two muscles that work against each other are active at the same time.

#include <limits>
#include <span>

namespace jointrom {

/// Measures of co-contraction. The names say which; they are not comparable with each other.
struct CoContraction {
    static constexpr double none = std::numeric_limits<double>::quiet_NaN();
    /// Twice the area that both envelopes have in common, over the sum of both areas: 0 to 100 %.
    double common_area_pct = none;
    /// Mean over time of (lower / higher) (lower + higher), in the unit of the envelopes; 0 where both are 0.
    double weighted_ratio = none;
    double mean_of_lower = none;  ///< mean over time of the lower of both, in the unit of the envelopes
    double area_ratio = none;     ///< area of the lower over area of the higher at each time, 0 to 1
};

/// Co-contraction over a stretch of two envelopes.
///
/// Method: areas and means by the trapezium rule over time.
/// Missing samples: a step between two samples counts where all four values are there.
///
/// \param a,b envelopes at the same times, in the same unit: only normalised envelopes can be compared, since an
///            electrode's place sets the size of the signal
/// \return missing for fewer than two samples, and where both muscles are silent
/// \pre a.size() == b.size()
/// \par Accuracy 1e-12 of NumPy 1.24.2
/// \par Reference K. Falconer and D. A. Winter 1985, Electromyogr Clin Neurophysiol 25:135 (common area); K. S.
/// Rudolph,
///      M. J. Axe and L. Snyder-Mackler 2000, Knee Surg Sports Traumatol Arthrosc 8:262 (weighted ratio)
[[nodiscard]] CoContraction co_contraction(std::span<const double> a, std::span<const double> b);

}  // namespace jointrom
