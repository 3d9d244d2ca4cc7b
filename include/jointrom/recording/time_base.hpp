#pragma once

/// \file
/// When the samples of a channel were taken.

#include <jointrom/core/sample_span.hpp>
#include <jointrom/core/units.hpp>

#include <cstddef>
#include <memory>
#include <vector>

namespace jointrom {

/// Times of samples: at a fixed rate, or stamped one by one. Copies share the stamps.
class TimeBase {
  public:
    TimeBase() = default;
    /// \pre rate > 0
    [[nodiscard]] static TimeBase regular(Seconds start, Hertz rate, std::size_t count);
    /// \param time_s strictly increasing times in seconds; at least two
    [[nodiscard]] static TimeBase stamped(std::vector<double> time_s);

    [[nodiscard]] bool is_regular() const noexcept { return stamps_s_ == nullptr; }
    [[nodiscard]] std::size_t count() const noexcept { return count_; }
    /// Nominal rate: the rate itself, or one over the median interval between stamps.
    [[nodiscard]] Hertz rate() const noexcept { return rate_; }
    /// Time of sample i, in seconds on the recording's clock. \pre i < count()
    [[nodiscard]] double time_s(std::size_t i) const;
    /// Samples with window.start <= t <= window.end, within a thousandth of an interval.
    [[nodiscard]] SampleSpan span(TimeWindow window) const;

  private:
    Seconds start_;
    Hertz rate_;
    std::size_t count_ = 0;
    std::shared_ptr<const std::vector<double>> stamps_s_;
};

}  // namespace jointrom
