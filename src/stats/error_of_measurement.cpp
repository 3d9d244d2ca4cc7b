#include <jointrom/stats/error_of_measurement.hpp>

#include "stats/distributions.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {

double minimal_detectable_change(double sem) {
    return 1.96 * std::sqrt(2.0) * sem;
}

ErrorOfMeasurement error_of_measurement(double sem, double dof, double mean, double confidence) {
    const double relative = mean == 0.0 ? std::numeric_limits<double>::quiet_NaN() : 100.0 * sem / std::abs(mean);
    return {sem, sd_interval(sem, dof, confidence), dof, minimal_detectable_change(sem), relative};
}

ErrorOfMeasurement error_of_consistency(const TwoWayAnova& anova, double confidence) {
    return error_of_measurement(std::sqrt(anova.ms_error), anova.error_dof(), anova.grand_mean, confidence);
}

ErrorOfMeasurement error_of_agreement(const TwoWayAnova& anova, double confidence) {
    const auto n = static_cast<double>(anova.rows);
    if (anova.ms_columns <= anova.ms_error) {
        return error_of_consistency(anova, confidence);
    }
    const double column_part = anova.ms_columns / n;
    const double error_part = anova.ms_error * (n - 1.0) / n;
    const double variance = column_part + error_part;
    const double dof = variance * variance /
                       (column_part * column_part / (static_cast<double>(anova.columns) - 1.0) +
                        error_part * error_part / anova.error_dof());
    return error_of_measurement(std::sqrt(variance), dof, anova.grand_mean, confidence);
}

ErrorOfMeasurement error_within_subjects(const TwoWayAnova& anova, double confidence) {
    return error_of_measurement(std::sqrt(anova.ms_within), anova.within_dof(), anova.grand_mean, confidence);
}

}  // namespace jointrom
