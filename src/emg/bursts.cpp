#include <jointrom/emg/bursts.hpp>

#include <jointrom/signal/moving_window.hpp>
#include <jointrom/stats/descriptive.hpp>

#include <algorithm>
#include <cmath>

namespace jointrom {
namespace {

std::size_t samples_in(Seconds time, Hertz rate) {
    return static_cast<std::size_t>(std::max(1.0, std::round(time.value() * rate.value())));
}

/// Whether the window that starts at each sample lies above the threshold.
class Confirmed {
  public:
    Confirmed(std::span<const double> envelope, double threshold, std::size_t window, Confirmation confirmation)
        : envelope_(envelope), threshold_(threshold), window_(window), confirmation_(confirmation) {
        if (confirmation == Confirmation::mean_of_window) {
            means_ = moving_mean(envelope, window);
        }
    }

    [[nodiscard]] bool is_above(std::size_t i) const {
        if (!(envelope_[i] > threshold_)) {
            return false;
        }
        const std::size_t last = std::min(i + window_, envelope_.size());
        return confirmation_ == Confirmation::every_sample
                   ? std::ranges::all_of(slice(envelope_, {i, last}), [&](double x) { return x > threshold_; })
                   : mean_from(i) > threshold_;
    }

    [[nodiscard]] bool is_below(std::size_t i) const {
        if (envelope_[i] > threshold_) {
            return false;
        }
        const std::size_t last = std::min(i + window_, envelope_.size());
        return std::isnan(envelope_[i]) ||
               (confirmation_ == Confirmation::every_sample
                    ? std::ranges::none_of(slice(envelope_, {i, last}), [&](double x) { return x > threshold_; })
                    : !(mean_from(i) > threshold_));
    }

    /// is_below() with time turned round.
    [[nodiscard]] bool was_below(std::size_t i) const {
        if (envelope_[i] > threshold_) {
            return false;
        }
        const std::size_t first = i + 1 - std::min(window_, i + 1);
        return confirmation_ == Confirmation::every_sample
                   ? std::ranges::none_of(slice(envelope_, {first, i + 1}), [&](double x) { return x > threshold_; })
                   : !(mean_until(i) > threshold_);
    }

    /// Where a burst starts when time runs backward from the highest sample of the window that
    /// confirmed it: that window reaches into the burst and makes an onset of any noise above the threshold before it.
    [[nodiscard]] std::size_t start_of(SampleSpan burst) const {
        const auto window = slice(envelope_, {burst.first, std::min(burst.first + window_, burst.last)});
        auto start = burst.first + static_cast<std::size_t>(std::ranges::max_element(window) - window.begin());
        while (start > burst.first && !was_below(start - 1)) {
            --start;
        }
        return start;
    }

  private:
    /// moving_mean() centres its window; half a window further on stands the mean of the one that starts at i.
    [[nodiscard]] double mean_from(std::size_t i) const { return means_[std::min(i + window_ / 2, means_.size() - 1)]; }
    [[nodiscard]] double mean_until(std::size_t i) const {
        return means_[i + 1 + window_ / 2 - std::min(window_, i + 1 + window_ / 2)];
    }

    std::span<const double> envelope_;
    double threshold_;
    std::size_t window_;
    Confirmation confirmation_;
    std::vector<double> means_;
};

}  // namespace

std::optional<Baseline> baseline_of(std::span<const double> envelope, SampleSpan rest) {
    const Description found = describe(slice(envelope, rest));
    return found.count < 2 ? std::nullopt : std::optional<Baseline>({found.mean, found.sd});
}

std::optional<std::size_t> find_onset(std::span<const double> envelope, double threshold, std::size_t window,
                                      std::size_t from, Confirmation confirmation) {
    const Confirmed confirmed(envelope, threshold, window, confirmation);
    for (std::size_t i = from; i + window <= envelope.size(); ++i) {
        if (confirmed.is_above(i)) {
            return i;
        }
    }
    return std::nullopt;
}

std::vector<SampleSpan> cleaned_bursts(std::vector<SampleSpan> bursts, std::size_t min_gap, std::size_t min_length) {
    std::vector<SampleSpan> joined;
    for (const SampleSpan burst : bursts) {
        if (!joined.empty() && burst.first - joined.back().last < min_gap) {
            joined.back().last = burst.last;
        } else {
            joined.push_back(burst);
        }
    }
    std::erase_if(joined, [&](SampleSpan burst) { return burst.size() < min_length; });
    return joined;
}

std::vector<SampleSpan> active_bursts(std::span<const double> envelope, Hertz rate, double threshold,
                                      const BurstOptions& options) {
    const Confirmed confirmed(envelope, threshold, samples_in(options.window, rate), options.confirmation);
    std::vector<SampleSpan> bursts;
    bool is_active = false;
    for (std::size_t i = 0; i < envelope.size(); ++i) {
        if (is_active ? confirmed.is_below(i) : confirmed.is_above(i)) {
            if (is_active) {
                bursts.back().last = i;
            } else {
                bursts.push_back({i, envelope.size()});
            }
            is_active = !is_active;
        }
    }
    for (SampleSpan& burst : bursts) {
        burst.first = confirmed.start_of(burst);
    }
    return cleaned_bursts(std::move(bursts), samples_in(options.min_gap, rate), samples_in(options.min_burst, rate));
}

}  // namespace jointrom
