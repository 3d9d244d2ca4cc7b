#pragma once

/// \file
/// The noise of which a simulated electromyogram is made.

#include <jointrom/core/units.hpp>
#include <jointrom/simulate/random_numbers.hpp>

namespace jointrom {

/// Noise with SD 1 at an even rate: white noise through two equal poles and a difference.
class MuscleNoise {
  public:
    /// \pre 0 < median < rate / 4
    MuscleNoise(RandomNumbers random, Hertz median, Hertz rate);
    [[nodiscard]] double next() noexcept;
    /// From here on, to a quarter of a hertz.
    void set_median(Hertz median);

  private:
    RandomNumbers random_;
    Hertz rate_;
    Hertz median_;
    double pole_ = 0.0;
    double scale_ = 0.0;  ///< of the difference, so that its SD is 1
    double first_ = 0.0;
    double second_ = 0.0;
};

/// The pole that puts half of the power below `median`, by bisection on the filter's response.
[[nodiscard]] double muscle_pole(Hertz median, Hertz rate);

}  // namespace jointrom
