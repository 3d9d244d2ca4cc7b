#include <jointrom/signal/moving_window.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

namespace jointrom {
namespace {

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

/// Count, mean and sum of squared deviations of some samples (Chan, Golub and LeVeque 1983 on joining two of them).
struct Moments {
    double count = 0.0;
    double mean = 0.0;
    double squares = 0.0;

    static Moments of(double x) { return std::isnan(x) ? Moments{} : Moments{1.0, x, 0.0}; }

    friend Moments operator+(const Moments& a, const Moments& b) {
        if (b.count == 0.0) {
            return a;
        }
        if (a.count == 0.0) {
            return b;
        }
        const double step = b.mean - a.mean;
        const double share = b.count / (a.count + b.count);
        return {a.count + b.count, a.mean + step * share, a.squares + b.squares + step * step * a.count * share};
    }
};

/// Moments of a window whose ends only move forward. The older samples are kept as sums from each of them up to a fixed
/// one, the newer as one sum, so that dropping a sample never subtracts.
class MovingMoments {
  public:
    explicit MovingMoments(std::span<const double> samples) : samples_(samples) {}

    void move_to(std::size_t first, std::size_t last) {
        for (; last_ < last; ++last_) {
            newer_ = newer_ + Moments::of(samples_[last_]);
        }
        for (; first_ < first; ++first_) {
            if (older_.empty()) {
                turn_over();
            }
            older_.pop_back();
        }
    }

    [[nodiscard]] Moments moments() const { return older_.empty() ? newer_ : older_.back() + newer_; }

  private:
    void turn_over() {
        Moments sum;
        for (std::size_t i = last_; i-- > first_;) {
            sum = Moments::of(samples_[i]) + sum;
            older_.push_back(sum);
        }
        newer_ = {};
    }

    std::span<const double> samples_;
    std::size_t first_ = 0;
    std::size_t last_ = 0;
    std::vector<Moments> older_;
    Moments newer_;
};

/// The window's samples in order of size.
class MovingOrder {
  public:
    explicit MovingOrder(std::span<const double> samples) : samples_(samples) {}

    void move_to(std::size_t first, std::size_t last) {
        for (; last_ < last; ++last_) {
            if (const double x = samples_[last_]; !std::isnan(x)) {
                sorted_.insert(std::ranges::upper_bound(sorted_, x), x);
            }
        }
        for (; first_ < first; ++first_) {
            if (const double x = samples_[first_]; !std::isnan(x)) {
                sorted_.erase(std::ranges::lower_bound(sorted_, x));
            }
        }
    }

    [[nodiscard]] double median() const {
        const std::size_t n = sorted_.size();
        return n == 0 ? missing : n % 2 == 1 ? sorted_[n / 2] : (sorted_[n / 2 - 1] + sorted_[n / 2]) / 2.0;
    }

  private:
    std::span<const double> samples_;
    std::size_t first_ = 0;
    std::size_t last_ = 0;
    std::vector<double> sorted_;
};

/// `value_of(window)` for every position of a window of type `Window`.
template <typename Window, typename ValueOf>
std::vector<double> slide(std::span<const double> samples, std::size_t width, WindowEnds ends, ValueOf value_of) {
    assert(width >= 1);
    const std::size_t before = width / 2;
    const std::size_t after = width - before;
    std::vector<double> result(samples.size(), missing);
    Window window(samples);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        window.move_to(i - std::min(i, before), i + std::min(after, samples.size() - i));
        const bool whole = i >= before && i + after <= samples.size();
        if (whole || ends == WindowEnds::shrink) {
            result[i] = value_of(window);
        }
    }
    return result;
}

}  // namespace

std::vector<double> moving_mean(std::span<const double> samples, std::size_t window, WindowEnds ends) {
    assert(window >= 1);
    const std::size_t before = window / 2;
    const std::size_t size = samples.size();
    std::vector<double> result(size);
    std::vector<double> value(2 * window);
    std::vector<double> present(2 * window);
    // As many windows at a time as a window is long. Each is a part of the first one's samples and a part of those
    // behind it; both sums only grow, so no precision is lost by subtracting.
    for (std::size_t first = 0; first < size; first += window) {
        const std::size_t begin = before - std::min(first, before);
        const std::size_t end = std::min(2 * window, size + before - first);
        std::ranges::fill(value, 0.0);
        std::ranges::fill(present, 0.0);
        for (std::size_t k = begin; k < end; ++k) {
            const double x = samples[first + k - before];
            value[k] = std::isnan(x) ? 0.0 : x;
            present[k] = std::isnan(x) ? 0.0 : 1.0;
        }
        for (std::size_t k = window - 1; k-- > 0;) {
            value[k] += value[k + 1];
            present[k] += present[k + 1];
        }
        double newer = 0.0;
        double newer_present = 0.0;
        for (std::size_t k = 0; k < window && first + k < size; ++k) {
            // 0 / 0, missing, when the window is empty
            result[first + k] = (value[k] + newer) / (present[k] + newer_present);
            newer += value[window + k];
            newer_present += present[window + k];
        }
    }
    if (ends == WindowEnds::missing) {
        std::fill_n(result.begin(), std::min(before, size), missing);
        const std::size_t after = std::min(window - before - 1, size);
        std::fill_n(result.end() - static_cast<std::ptrdiff_t>(after), after, missing);
    }
    return result;
}

std::vector<double> moving_rms(std::span<const double> samples, std::size_t window, WindowEnds ends) {
    std::vector<double> squares(samples.size());
    std::ranges::transform(samples, squares.begin(), [](double x) { return x * x; });
    std::vector<double> result = moving_mean(squares, window, ends);
    std::ranges::transform(result, result.begin(), [](double square) { return std::sqrt(square); });
    return result;
}

std::vector<double> moving_sd(std::span<const double> samples, std::size_t window, WindowEnds ends) {
    return slide<MovingMoments>(samples, window, ends, [](const MovingMoments& w) {
        const Moments m = w.moments();
        return m.count > 1.0 ? std::sqrt(m.squares / (m.count - 1.0)) : missing;
    });
}

std::vector<double> moving_median(std::span<const double> samples, std::size_t window, WindowEnds ends) {
    return slide<MovingOrder>(samples, window, ends, [](const MovingOrder& w) { return w.median(); });
}

}  // namespace jointrom
