#include <jointrom/stats/t_test.hpp>

#include "stats/distributions.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

double number(std::size_t count) {
    return static_cast<double>(count);
}

double mean_variance(const Description& sample) {
    return sample.sd * sample.sd / number(sample.count);
}

TTest tested(double difference, double se, double dof, double confidence) {
    const double half = student_quantile(0.5 + confidence / 2.0, dof) * se;
    const double t = se > 0.0 ? difference / se : missing;
    return {difference, {difference - half, difference + half}, t, dof, student_two_sided_p(t, dof)};
}

/// \param scale what a noncentrality is divided by to give d
EffectSize sized(double d, double dof, double scale, double confidence) {
    if (!std::isfinite(d)) {
        return {missing, missing, {}};
    }
    const double correction = dof > 1.0 ? hedges_correction(dof) : missing;
    const ConfidenceInterval around = noncentrality_interval(d * scale, dof, confidence);
    return {d, correction * d, {correction * around.low / scale, correction * around.high / scale}};
}

}  // namespace

ConfidenceInterval mean_interval(const Description& sample, double confidence) {
    if (sample.count < 2) {
        return {};
    }
    const double half =
        student_quantile(0.5 + confidence / 2.0, number(sample.count) - 1.0) * std::sqrt(mean_variance(sample));
    return {sample.mean - half, sample.mean + half};
}

TTest paired_t_test(const Description& differences, double confidence) {
    if (differences.count < 2) {
        return {differences.mean, {}, missing, missing, missing};
    }
    return tested(differences.mean, std::sqrt(mean_variance(differences)), number(differences.count) - 1.0, confidence);
}

TTest welch_t_test(const Description& first, const Description& second, double confidence) {
    const double difference = second.mean - first.mean;
    const double variance = mean_variance(first) + mean_variance(second);
    if (!(variance > 0.0)) {
        return {difference, {}, missing, missing, missing};
    }
    const auto part = [](const Description& sample) {
        return mean_variance(sample) * mean_variance(sample) / (number(sample.count) - 1.0);
    };
    const double dof = variance * variance / (part(first) + part(second));
    return tested(difference, std::sqrt(variance), dof, confidence);
}

EffectSize paired_effect_size(const Description& differences, double confidence) {
    if (differences.count < 2 || !(differences.sd > 0.0)) {
        return {missing, missing, {}};
    }
    return sized(differences.mean / differences.sd, number(differences.count) - 1.0,
                 std::sqrt(number(differences.count)), confidence);
}

EffectSize effect_size(const Description& first, const Description& second, double confidence) {
    if (first.count < 2 || second.count < 2) {
        return {missing, missing, {}};
    }
    const double dof1 = number(first.count) - 1.0;
    const double dof2 = number(second.count) - 1.0;
    const double pooled = std::sqrt((dof1 * first.sd * first.sd + dof2 * second.sd * second.sd) / (dof1 + dof2));
    if (!(pooled > 0.0)) {
        return {missing, missing, {}};
    }
    const double scale = 1.0 / std::sqrt(1.0 / number(first.count) + 1.0 / number(second.count));
    return sized((second.mean - first.mean) / pooled, dof1 + dof2, scale, confidence);
}

}  // namespace jointrom
