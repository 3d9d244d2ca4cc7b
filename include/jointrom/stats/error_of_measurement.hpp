#pragma once

/// \file
/// How far a repeated measurement of the same subject is off, in the unit of the measurement.

#include <jointrom/stats/confidence_interval.hpp>
#include <jointrom/stats/two_way_anova.hpp>

#include <string_view>

namespace jointrom {

/// A standard error of measurement and what follows from it.
struct ErrorOfMeasurement {
    double sem;              ///< standard error of measurement: SD of one score about the subject's true one
    ConfidenceInterval ci;   ///< of the standard error of measurement
    double dof;              ///< degrees of freedom it was estimated with
    double mdc95;            ///< change between two scores that only 1 in 20 unchanged subjects exceeds
    double percent_of_mean;  ///< 100 sem / |grand mean|; missing for a mean of 0
};

/// `sem` with what follows from it. \param dof degrees of freedom \param mean grand mean of the scores
[[nodiscard]] ErrorOfMeasurement error_of_measurement(double sem, double dof, double mean, double confidence = 0.95);

/// Smallest detectable change: 1.96 sqrt(2) times the standard error of measurement.
/// \par Reference J. P. Weir 2005, J Strength Cond Res 19:231
[[nodiscard]] double minimal_detectable_change(double sem);

/// Differences between columns (raters, days) do not count as error: sqrt(MS error). For two columns this is the
/// typical error, SD of the differences / sqrt(2). \par Reference J. P. Weir 2005, J Strength Cond Res 19:231; W. G.
/// Hopkins 2000, Sports Med 30:1
[[nodiscard]] ErrorOfMeasurement error_of_consistency(const TwoWayAnova& anova, double confidence = 0.95);

/// Differences between columns count as error: sqrt(MS error + variance between columns), the latter not below 0.
///
/// Method: degrees of freedom by Satterthwaite.
[[nodiscard]] ErrorOfMeasurement error_of_agreement(const TwoWayAnova& anova, double confidence = 0.95);

/// Columns are not told apart: within-subject standard deviation, sqrt(MS within); 2.77 times it is the repeatability.
/// \par Reference J. M. Bland and D. G. Altman 1996, BMJ 313:744
[[nodiscard]] ErrorOfMeasurement error_within_subjects(const TwoWayAnova& anova, double confidence = 0.95);

}  // namespace jointrom
