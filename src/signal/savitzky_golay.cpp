#include <jointrom/signal/savitzky_golay.hpp>

#include <jointrom/signal/finite_runs.hpp>

#include <Eigen/Dense>

#include <cassert>
#include <cmath>

namespace jointrom {
namespace {

using Samples = std::span<const double>;

double middle_of(const SavitzkyGolay& filter) {
    return static_cast<double>(filter.window - 1) / 2.0;
}

/// Least-squares polynomials of one window.
class WindowFit {
  public:
    explicit WindowFit(const SavitzkyGolay& filter) : filter_(filter) {
        assert(filter.window % 2 == 1 && filter.degree < filter.window && filter.derivative <= filter.degree);
        const auto rows = static_cast<Eigen::Index>(filter.window);
        const auto columns = static_cast<Eigen::Index>(filter.degree) + 1;
        Eigen::MatrixXd powers(rows, columns);
        for (Eigen::Index i = 0; i < rows; ++i) {
            powers.row(i) = monomials(scaled(static_cast<double>(i)), 0);
        }
        const Eigen::HouseholderQR<Eigen::MatrixXd> qr(powers);
        orthonormal_ = qr.householderQ() * Eigen::MatrixXd::Identity(rows, columns);
        triangle_ = qr.matrixQR().topRows(columns);
    }

    /// Weights that give the derivative at `position`, counted in samples from the first of the window.
    [[nodiscard]] Eigen::VectorXd weights(double position) const {
        const Eigen::VectorXd wanted = monomials(scaled(position), filter_.derivative);
        return orthonormal_ * triangle_.triangularView<Eigen::Upper>().transpose().solve(wanted);
    }

  private:
    [[nodiscard]] double half() const { return std::max(1.0, middle_of(filter_)); }
    /// -1 to 1 over the window, so that high powers stay comparable.
    [[nodiscard]] double scaled(double position) const { return (position - middle_of(filter_)) / half(); }

    /// Derivatives of 1, t, t^2, ... with respect to samples.
    [[nodiscard]] Eigen::RowVectorXd monomials(double t, std::size_t derivative) const {
        Eigen::RowVectorXd row(static_cast<Eigen::Index>(filter_.degree) + 1);
        for (std::size_t power = 0; power <= filter_.degree; ++power) {
            double value = power < derivative ? 0.0 : std::pow(t, static_cast<double>(power - derivative));
            for (std::size_t d = 0; d < derivative && power >= derivative; ++d) {
                value *= static_cast<double>(power - d) / half();
            }
            row(static_cast<Eigen::Index>(power)) = value;
        }
        return row;
    }

    SavitzkyGolay filter_;
    Eigen::MatrixXd orthonormal_;
    Eigen::MatrixXd triangle_;
};

double weighted_sum(const Eigen::VectorXd& weights, const double* samples) {
    return weights.dot(Eigen::Map<const Eigen::VectorXd>(samples, weights.size()));
}

std::vector<double> filtered_run(Samples x, SavitzkyGolay filter, double rate_hz) {
    filter.window = std::min(filter.window, x.size() - (x.size() % 2 == 0 ? 1 : 0));
    if (filter.window <= filter.degree) {
        return std::vector<double>(x.size(), std::numeric_limits<double>::quiet_NaN());
    }
    const WindowFit fit(filter);
    const double scale = std::pow(rate_hz, static_cast<double>(filter.derivative));
    const std::size_t half = filter.window / 2;
    const std::size_t last_start = x.size() - filter.window;

    std::vector<double> result(x.size());
    const Eigen::VectorXd at_middle = scale * fit.weights(middle_of(filter));
    for (std::size_t start = 0; start <= last_start; ++start) {
        result[start + half] = weighted_sum(at_middle, x.data() + start);
    }
    for (std::size_t i = 0; i < half; ++i) {
        const std::size_t mirrored = filter.window - 1 - i;
        result[i] = weighted_sum(scale * fit.weights(static_cast<double>(i)), x.data());
        result[last_start + mirrored] =
            weighted_sum(scale * fit.weights(static_cast<double>(mirrored)), x.data() + last_start);
    }
    return result;
}

}  // namespace

std::vector<double> savitzky_golay_weights(const SavitzkyGolay& filter) {
    const Eigen::VectorXd weights = WindowFit(filter).weights(middle_of(filter));
    return {weights.begin(), weights.end()};
}

std::vector<double> savitzky_golay(Samples samples, const SavitzkyGolay& filter, Hertz rate) {
    return map_finite_runs(samples, [&](Samples run) { return filtered_run(run, filter, rate.value()); });
}

}  // namespace jointrom
