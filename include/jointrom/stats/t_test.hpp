#pragma once

/// \file
/// Means compared: confidence intervals, t tests and effect sizes.

#include <jointrom/stats/confidence_interval.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <span>

namespace jointrom {

/// Interval of a mean by Student's t; missing for fewer than two values.
[[nodiscard]] ConfidenceInterval mean_interval(const Description& sample, double confidence = 0.95);

/// A difference of means with its test.
struct TTest {
    double difference;
    ConfidenceInterval ci;
    double t;  ///< missing when nothing varies
    double dof;
    double p;  ///< two-sided
};

/// A difference in standard deviations.
struct EffectSize {
    double d;  ///< Cohen's
    double g;  ///< Hedges': d without its small-sample bias, exact gamma-function form
    ConfidenceInterval g_ci;
};

/// Mean of the differences of paired values, against none. \param differences Description of second minus first
/// \return t and p are missing for fewer than two differences or when all are equal
[[nodiscard]] TTest paired_t_test(const Description& differences, double confidence = 0.95);

/// Second mean minus first, the variances not being taken as equal.
///
/// Method: Welch's t with Satterthwaite's degrees of freedom.
/// \return all but the difference are missing when a sample has fewer than two values
/// \par Reference B. L. Welch 1947, Biometrika 34:28
[[nodiscard]] TTest welch_t_test(const Description& first, const Description& second, double confidence = 0.95);

/// Mean difference over the standard deviation of the differences (d_z); its interval is that of the noncentral t.
[[nodiscard]] EffectSize paired_effect_size(const Description& differences, double confidence = 0.95);

/// Second mean minus first over the pooled standard deviation; its interval is that of the noncentral t.
/// \par Reference L. V. Hedges 1981, J Educ Stat 6:107
[[nodiscard]] EffectSize effect_size(const Description& first, const Description& second, double confidence = 0.95);

}  // namespace jointrom
