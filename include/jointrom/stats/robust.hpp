#pragma once

/// \file
/// Location, spread and outliers by statistics that a few wild values hardly move.

#include <cstddef>
#include <span>
#include <vector>

namespace jointrom {

/// Middle value; of an even number the mean of the two middle ones. Missing values are skipped; missing for no values.
[[nodiscard]] double median(std::span<const double> values);

/// Median absolute deviation from the median, not scaled. Missing values are skipped; missing for no values.
[[nodiscard]] double median_absolute_deviation(std::span<const double> values);

/// 1.4826 times the median absolute deviation: the standard deviation, were the values normal.
[[nodiscard]] double robust_sd(std::span<const double> values);

/// How far each value lies from the median, in robust standard deviations.
///
/// Method: 0.6745 (x - median) / MAD. When more than half of the values are equal, so that MAD is 0, the mean absolute
/// deviation times 1.253314 takes the place of MAD / 0.6745; when all are equal the scores are 0.
/// The order of the values makes no difference.
/// Missing samples: missing.
///
/// \par Accuracy 1e-12 of R 4.2.2
/// \par Reference B. Iglewicz and D. C. Hoaglin 1993, How to Detect and Handle Outliers, ASQC Quality Press
[[nodiscard]] std::vector<double> modified_z_scores(std::span<const double> values);

/// What modified_z_scores() divides distances from `centre` (the median) by; 0 when all values are equal.
[[nodiscard]] double modified_z_divisor(std::span<const double> values, double centre);

/// Places of the values whose modified z score is larger than `limit` in size. Unlike plain z scores these are not
/// masked by the outliers themselves.
[[nodiscard]] std::vector<std::size_t> find_outliers(std::span<const double> values, double limit = 3.5);

/// Tukey's fences: values beyond them are suspect.
struct Fences {
    double low;
    double high;
};

/// First quartile less, and third quartile plus, `factor` times their distance; quartiles by Hyndman and Fan's type 7.
/// Missing values are skipped; missing for no values.
[[nodiscard]] Fences tukey_fences(std::span<const double> values, double factor = 1.5);

}  // namespace jointrom
