#pragma once

/// \file
/// Quantiles and tail probabilities of the distributions that the statistics of this module refer to.

#include <jointrom/stats/confidence_interval.hpp>

namespace jointrom {

/// Value that Student's t with `dof` degrees of freedom stays below with probability `p`. \pre 0 < p < 1, dof > 0
[[nodiscard]] double student_quantile(double p, double dof);

/// Probability of a t at least as large in size; missing for a missing t, 0 for an infinite one.
[[nodiscard]] double student_two_sided_p(double t, double dof);

/// Value that F stays below with probability `p`. \pre 0 < p < 1, both degrees of freedom > 0
[[nodiscard]] double fisher_quantile(double p, double dof1, double dof2);

/// Probability of an F at least as large; missing for a missing F, 0 for an infinite one.
[[nodiscard]] double fisher_upper_p(double f, double dof1, double dof2);

/// Confidence interval of a standard deviation that was estimated with `dof` degrees of freedom.
[[nodiscard]] ConfidenceInterval sd_interval(double sd, double dof, double confidence);

/// Confidence interval of the noncentrality of a t that was observed as `t`.
///
/// Method: the noncentralities for which `t` is the upper and the lower quantile, found by bisection. Where `t` or
/// `dof` are too large for that to be worth it (more than 30 and 1000), t -+ z sqrt(1 + t^2 / (2 dof)).
[[nodiscard]] ConfidenceInterval noncentrality_interval(double t, double dof, double confidence);

/// What takes the bias from a standardised difference: Gamma(dof / 2) / (sqrt(dof / 2) Gamma((dof - 1) / 2)). \pre dof
/// > 1
[[nodiscard]] double hedges_correction(double dof);

}  // namespace jointrom
