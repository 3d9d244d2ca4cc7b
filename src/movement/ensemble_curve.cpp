#include <jointrom/movement/ensemble_curve.hpp>

#include <jointrom/core/failure.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

void require_equal_lengths(const std::vector<std::vector<double>>& curves) {
    for (const auto& curve : curves) {
        if (curve.size() < 2 || curve.size() != curves.front().size()) {
            throw Failure(FailureKind::usage, "curves-unequal",
                          "curves of an ensemble must have one length of at least two points",
                          "Normalise them to the same number of points.");
        }
    }
}

double sum_of_squares_about(std::span<const double> values, std::span<const double> centre) {
    double sum = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        sum += (values[i] - centre[i]) * (values[i] - centre[i]);
    }
    return sum;
}

std::optional<double> multiple_correlation(const EnsembleCurve& ensemble) {
    const auto curves = static_cast<double>(ensemble.curves_deg.size());
    const auto points = static_cast<double>(ensemble.mean_deg.size());
    const std::vector<double> grand_mean(ensemble.mean_deg.size(), describe(ensemble.mean_deg).mean);
    double within = 0.0;
    double total = 0.0;
    for (const auto& curve : ensemble.curves_deg) {
        within += sum_of_squares_about(curve, ensemble.mean_deg);
        total += sum_of_squares_about(curve, grand_mean);
    }
    const double squared = 1.0 - within / (points * (curves - 1.0)) / (total / (curves * points - 1.0));
    return squared >= 0.0 ? std::optional(std::sqrt(squared)) : std::nullopt;  // none for a missing value, too
}

}  // namespace

EnsembleCurve ensemble_of(std::vector<std::vector<double>> curves_deg) {
    require_equal_lengths(curves_deg);
    EnsembleCurve ensemble;
    ensemble.curves_deg = std::move(curves_deg);
    if (ensemble.curves_deg.empty()) {
        return ensemble;
    }
    const std::size_t points = ensemble.curves_deg.front().size();
    std::vector<double> at_point(ensemble.curves_deg.size());
    double variances = 0.0;
    double sizes = 0.0;
    for (std::size_t i = 0; i < points; ++i) {
        std::ranges::transform(ensemble.curves_deg, at_point.begin(), [i](const auto& curve) { return curve[i]; });
        const Description all = describe(at_point);
        const bool is_whole = all.missing == 0;
        ensemble.mean_deg.push_back(is_whole ? all.mean : missing);
        ensemble.sd_deg.push_back(is_whole ? all.sd : missing);
        variances += ensemble.sd_deg.back() * ensemble.sd_deg.back();
        sizes += std::abs(ensemble.mean_deg.back());
    }
    ensemble.average_sd_deg = std::sqrt(variances / static_cast<double>(points));
    ensemble.cv_pct = 100.0 * ensemble.average_sd_deg / (sizes / static_cast<double>(points));
    ensemble.cmc = multiple_correlation(ensemble);
    for (const auto& curve : ensemble.curves_deg) {
        ensemble.rmsd_deg.push_back(
            std::sqrt(sum_of_squares_about(curve, ensemble.mean_deg) / static_cast<double>(points)));
    }
    return ensemble;
}

EnsembleCurve ensemble_curve(const AngleTrace& trace, std::span<const Repetition> repetitions, std::size_t points,
                             Interpolation method) {
    std::vector<std::vector<double>> curves;
    for (const Repetition& repetition : repetitions) {
        const SampleSpan both_ends{repetition.span.first, std::min(repetition.span.last + 1, trace.size())};
        curves.push_back(time_normalise(slice(trace.angle_deg(), both_ends), points, method));
    }
    return ensemble_of(std::move(curves));
}

}  // namespace jointrom
